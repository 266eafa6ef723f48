package pdf

import (
	"bytes"
	"crypto/md5"
	"encoding/hex"
	"strconv"
)

// Ours tells whether data is a document just as PDF writes it: its identifier is the
// sum of what stands before its table of objects. One that was annotated, signed or
// saved by another program since is not.
func Ours(data []byte) bool {
	before, after, found := cutLast(data, "startxref\n")
	digits, whole := bytes.CutSuffix(after, []byte("\n%%EOF\n"))
	at, err := strconv.Atoi(string(digits))
	if !found || !whole || err != nil || at < 0 || at > len(before) || !bytes.HasPrefix(data[at:], []byte("xref\n")) {
		return false
	}
	sum := md5.Sum(data[:at])
	id := []byte("/ID [<" + hex.EncodeToString(sum[:]) + ">")
	return bytes.Contains(before[at:], id) && bytes.Contains(data[:at], []byte("<pdf:Producer>"+tool+"<"))
}

func cutLast(data []byte, mark string) (before, after []byte, found bool) {
	i := bytes.LastIndex(data, []byte(mark))
	if i < 0 {
		return nil, nil, false
	}
	return data[:i], data[i+len(mark):], true
}

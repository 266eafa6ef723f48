package private

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

const (
	sealName = "seal"
	inside   = "go-graphviz" // where the library looks, below the folder for temporary files
	stageFor = "new-"        // begins the names of folders that are being made
	most     = 8             // folders of one name that are looked at; all but the last may be damaged
	reserve  = 8 << 20       // bytes that must be free before anything is compiled; the code is 6 MB
	tooOld   = time.Hour     // after this a folder in the making belongs to a run that was killed
)

// soundOne gives the first folder of the name that is as it was sealed; "" if none is.
func soundOne(base, name string) string {
	for n := range most {
		if dir := filepath.Join(base, name+strconv.Itoa(n)); sound(dir) {
			return dir
		}
	}
	return ""
}

// sound tells whether every file that the seal of a folder names is there, whole.
func sound(dir string) bool {
	seal, err := os.ReadFile(filepath.Join(dir, sealName))
	lines := strings.Split(strings.TrimSuffix(string(seal), "\n"), "\n")
	if err != nil || lines[len(lines)-1] != sealed {
		return false
	}
	for _, line := range lines[:len(lines)-1] {
		sum, path, _ := strings.Cut(line, " ")
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(path)))
		if err != nil || checksum(data) != sum {
			return false
		}
	}
	return true
}

// sealed is the last line of a seal, so that one cut short is none.
const sealed = "sealed"

// checksum is the length and the CRC-32C (RFC 3720, Castagnoli) of a file: against
// damage, not against people, who cannot write there.
func checksum(data []byte) string {
	return fmt.Sprintf("%d-%08x", len(data), crc32.Checksum(data, crc32.MakeTable(crc32.Castagnoli)))
}

// seal writes down what stands in a finished folder.
func seal(dir string) error {
	var out bytes.Buffer
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		fmt.Fprintf(&out, "%s %s\n", checksum(data), filepath.ToSlash(rel))
		return err
	})
	if err != nil {
		return err
	}
	out.WriteString(sealed + "\n")
	return written(filepath.Join(dir, sealName), out.Bytes())
}

// written writes a file and waits until it lies on the disk.
func written(path string, data []byte) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	if err == nil {
		err = file.Sync()
	}
	if closing := file.Close(); err == nil {
		err = closing
	}
	return err
}

// made compiles the library's code into a folder beside its place and puts it there;
// "" where that cannot be done. Several runs may do so at once: the first to come
// keeps its folder, the others take that one.
func made(base, name string) string {
	clearAway(base)
	stage, err := os.MkdirTemp(base, stageFor)
	if err != nil {
		return ""
	}
	defer os.RemoveAll(stage) // nothing is there any more once it has its place
	if !roomy(stage) || compile(filepath.Join(stage, inside)) != nil || seal(stage) != nil || !sound(stage) {
		return ""
	}
	for n := range most {
		dir := filepath.Join(base, name+strconv.Itoa(n))
		if sound(dir) {
			return dir
		}
		if _, err := os.Lstat(dir); err == nil {
			continue // damaged
		}
		if os.Rename(stage, dir) == nil || sound(dir) {
			return dir
		}
	}
	return ""
}

// roomy tells whether the disk takes what will be written.
func roomy(dir string) bool {
	path := filepath.Join(dir, "room")
	err := written(path, make([]byte, reserve))
	return os.Remove(path) == nil && err == nil
}

// clearAway removes folders in the making that a killed run has left.
func clearAway(base string) {
	old, _ := filepath.Glob(filepath.Join(base, stageFor+"*"))
	for _, dir := range old {
		if info, err := os.Lstat(dir); err == nil && time.Since(info.ModTime()) > tooOld {
			_ = os.RemoveAll(dir)
		}
	}
}

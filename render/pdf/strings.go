package pdf

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf16"
)

// textString writes any text as UTF-16 with its byte order mark, in hexadecimal
// (ISO 32000-1, 7.9.2.2).
func textString(s string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, u := range utf16.Encode([]rune(strings.ToValidUTF8(s, "?"))) {
		fmt.Fprintf(&b, "%04X", u)
	}
	b.WriteString(">")
	return b.String()
}

// literal writes plain ASCII in brackets.
func literal(s string) string {
	return "(" + strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`).Replace(s) + ")"
}

// nameObject writes a name; what is not a letter, digit or one of -._+ is escaped.
func nameObject(s string) string {
	var b strings.Builder
	b.WriteByte('/')
	for _, c := range []byte(s) {
		plain := c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || strings.IndexByte("-._+", c) >= 0
		if plain {
			b.WriteByte(c)
		} else {
			fmt.Fprintf(&b, "#%02X", c)
		}
	}
	return b.String()
}

// dateString writes a date with its zone, always UTC.
func dateString(t time.Time) string {
	return "(D:" + t.UTC().Format("20060102150405") + "+00'00')"
}

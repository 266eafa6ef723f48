package figures

import (
	"encoding/csv"
	"fmt"
	"io"
	"reflect"
	"regexp"
	"sort"
	"strings"
)

// Tables are the names of the lists that CSV prints.
func Tables() []string {
	var names []string
	t := reflect.TypeOf(Document{})
	for i := 0; i < t.NumField(); i++ {
		if f := t.Field(i); f.Type.Kind() == reflect.Slice {
			names = append(names, nameOf(f))
		}
	}
	return append(names, boughtTables[:]...)
}

// CSV writes one list as RFC 4180 in UTF-8; the header's names carry the units
// as in the JSON. Lists within a cell are joined by blanks, mappings as key=value.
// A text that a spreadsheet would take as a formula (a name may be "=1+1") or as a
// date (a stud 3/8) stands behind an apostrophe; numbers never do.
func CSV(w io.Writer, d Document, table string) error {
	list, ok := listed(d, strings.ReplaceAll(table, "-", "_"))
	if !ok {
		return fmt.Errorf("there is no table %q; tables: %s", table, strings.Join(Tables(), ", "))
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	row := list.Type().Elem()
	if err := out.Write(header(row, "")); err != nil {
		return err
	}
	for i := 0; i < list.Len(); i++ {
		if err := out.Write(cells(list.Index(i))); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// nameOf is what a field is called in the JSON.
func nameOf(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}

func listed(d Document, table string) (reflect.Value, bool) {
	v := reflect.ValueOf(d)
	for i := 0; i < v.NumField(); i++ {
		f := v.Type().Field(i)
		if nameOf(f) == table && f.Type.Kind() == reflect.Slice {
			return v.Field(i), true
		}
	}
	for i, name := range boughtTables {
		if name == table {
			return bought(&d.Purchase)[i], true
		}
	}
	return reflect.Value{}, false
}

func header(t reflect.Type, prefix string) []string {
	var names []string
	for i := 0; i < t.NumField(); i++ {
		f := t.Field(i)
		if f.Tag.Get("csv") == "-" {
			continue
		}
		name := prefix + nameOf(f)
		if f.Type.Kind() == reflect.Struct {
			names = append(names, header(f.Type, name+"_")...)
			continue
		}
		names = append(names, name)
	}
	return names
}

func cells(v reflect.Value) []string {
	var out []string
	for i := 0; i < v.NumField(); i++ {
		if f := v.Field(i); v.Type().Field(i).Tag.Get("csv") == "-" {
			continue
		} else if f.Kind() == reflect.Struct {
			out = append(out, cells(f)...)
		} else {
			out = append(out, guarded(cell(f), f.Kind()))
		}
	}
	return out
}

// guarded keeps a spreadsheet from reckoning with a text: the signs are those that
// OWASP lists under CSV injection.
func guarded(s string, kind reflect.Kind) string {
	switch kind {
	case reflect.Float64, reflect.Int, reflect.Bool, reflect.Pointer:
		return s
	}
	if s != "" && strings.ContainsRune("=+-@\t\r\n", rune(s[0])) || dated.MatchString(s) {
		return "'" + s
	}
	return s
}

// dated are texts that a spreadsheet turns into a date: a stud 3/8, a gauge 2/0, a
// part SEP2; common practice, no source.
var dated = regexp.MustCompile(`(?i)^(\d+[/-]\d+|(jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?)[ .-]?\d+)$`)

func cell(v reflect.Value) string {
	switch v.Kind() {
	case reflect.Float64:
		return fmt.Sprint(v.Float())
	case reflect.Pointer:
		if v.IsNil() {
			return ""
		}
		return cell(v.Elem())
	case reflect.Slice:
		var parts []string
		for i := 0; i < v.Len(); i++ {
			parts = append(parts, cell(v.Index(i)))
		}
		return strings.Join(parts, " ")
	case reflect.Map:
		var parts []string
		for _, k := range v.MapKeys() {
			parts = append(parts, k.String()+"="+cell(v.MapIndex(k)))
		}
		sort.Strings(parts)
		return strings.Join(parts, " ")
	case reflect.Struct:
		return strings.Join(cells(v), ":")
	}
	return fmt.Sprint(v.Interface())
}

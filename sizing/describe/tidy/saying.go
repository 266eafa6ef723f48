package tidy

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/source"
)

// sayingOf gives all that a description says as text, without the places at which it
// stands in the file.
func sayingOf(d *describe.Description) string {
	plain := *d
	plain.File, plain.Foreign = nil, nil
	var b strings.Builder
	saying(&b, reflect.ValueOf(plain))
	var foreign []string
	for _, w := range d.Foreign {
		foreign = append(foreign, w.Text)
	}
	slices.Sort(foreign)
	fmt.Fprintf(&b, "%q", foreign)
	return b.String()
}

var spanType = reflect.TypeFor[source.Span]()

func saying(b *strings.Builder, v reflect.Value) {
	switch {
	case v.Type() == spanType:
		fmt.Fprint(b, v.FieldByName("Start").FieldByName("Line").Int() > 0)
	case v.Kind() == reflect.Struct:
		b.WriteString("{")
		for i := range v.NumField() {
			saying(b, v.Field(i))
			b.WriteString(" ")
		}
		b.WriteString("}")
	case v.Kind() == reflect.Slice || v.Kind() == reflect.Array:
		b.WriteString("[")
		for i := range v.Len() {
			saying(b, v.Index(i))
			b.WriteString(" ")
		}
		b.WriteString("]")
	case v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface:
		if v.IsNil() {
			b.WriteString("nil")
		} else {
			saying(b, v.Elem())
		}
	case v.Kind() == reflect.String:
		fmt.Fprintf(b, "%q", v.String())
	default:
		fmt.Fprint(b, v)
	}
}

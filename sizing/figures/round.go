package figures

import (
	"math"
	"reflect"
	"strconv"
	"strings"
)

// precision is to what a figure is rounded: so many significant digits (0: all), and none
// behind so many decimals.
type precision struct{ digits, decimals int }

// byName are the figures that are rounded by their own name: those of the solved network are
// fine enough to be solved again.
var byName = map[string]precision{
	"nodes": {0, 6}, "amps_from": {0, 6}, "value": {9, 15}, "ohms": {9, 15}, "residual_a": {2, 18},
	"amps": {4, 4}, "sources": {4, 4}, "volts": {0, 3},
	"count": {0, 3}, "buy": {0, 3}, "pack": {0, 3}, "price": {0, 2}, "money": {0, 2}, "days": {0, 1}, "share": {0, 4}, "take_up": {0, 4},
	"readings": {0, 4}, "weight": {4, 4},
	"smallest_distance": {0, 1}, "distance": {0, 1}, "bound": {0, 1},
}

// byUnit are the figures that are rounded by the unit at the end of their name; a length
// below 10 mm keeps hundredths.
var byUnit = map[string]precision{
	"mm": {0, 1}, "mm2": {4, 4}, "a": {4, 4}, "v": {0, 3}, "ohm": {4, 9}, "c": {0, 1}, "g": {0, 1}, "n": {0, 1}, "s": {4, 4}, "pct": {0, 2}, "m": {0, 3}, "min": {0, 2},
}

// other is for figures whose name tells no unit.
var other = precision{4, 9}

func precisionOf(name string, x float64) precision {
	if p, ok := byName[name]; ok {
		return p
	}
	p, ok := byUnit[name[strings.LastIndex(name, "_")+1:]]
	switch {
	case !ok:
		return other
	case strings.HasSuffix(name, "_mm") && math.Abs(x) < 10:
		p.decimals = 2
	}
	return p
}

// rounded gives the nearest decimal figure, which prints as short as it is.
func rounded(x float64, p precision) float64 {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	decimals := p.decimals
	if p.digits > 0 {
		decimals = min(decimals, p.digits-1-int(math.Floor(math.Log10(math.Abs(x)))))
	}
	if decimals < 0 {
		step := math.Pow10(-decimals)
		return math.Round(x/step) * step
	}
	out, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', decimals, 64), 64)
	if err != nil || out == 0 {
		return 0
	}
	return out
}

// round rounds every figure below a value to what it means; name is the one by which the
// value is known in the object.
func round(v reflect.Value, name string) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(rounded(v.Float(), precisionOf(name, v.Float())))
	case reflect.Struct:
		for i := 0; i < v.NumField(); i++ {
			round(v.Field(i), strings.Split(v.Type().Field(i).Tag.Get("json"), ",")[0])
		}
	case reflect.Slice:
		for i := 0; i < v.Len(); i++ {
			round(v.Index(i), name)
		}
	case reflect.Map:
		roundMap(v, name)
	}
}

// roundMap rounds a mapping's figures: the numbers of findings by their own names, others by
// that of the mapping. Texts stay as they are.
func roundMap(v reflect.Value, name string) {
	if v.Type().Elem().Kind() != reflect.Float64 {
		return
	}
	for _, key := range v.MapKeys() {
		of := name
		if name == "numbers" {
			of = key.String()
		}
		x := v.MapIndex(key).Float()
		v.SetMapIndex(key, reflect.ValueOf(rounded(x, precisionOf(of, x))))
	}
}

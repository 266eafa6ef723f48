package spelt

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/unit"
)

var (
	bareNumber = regexp.MustCompile(`^[0-9]+([.,][0-9]+)?$`)
	aughts     = regexp.MustCompile(`^[0-9]+/0$`)
	comma      = regexp.MustCompile(`([0-9]),([0-9])`)
)

// Bare tells of a cell that it is a number alone.
func Bare(cell string) bool { return bareNumber.MatchString(cell) }

// Comma tells of a cell that a comma stands between its figures.
func Comma(cell string) bool { return comma.MatchString(cell) }

// Gauge gives a size as the format writes it; size is the unit of one that names none, ""
// where nothing says it. commas tells that the table has decimal commas.
func Gauge(cell, size string, commas bool) (string, error) {
	text, err := Pointed(strings.ReplaceAll(cell, "²", "2"), commas)
	if err != nil {
		return "", err
	}
	system := unit.Metric
	if size == "sae" {
		system = unit.SAE
	} else if size == "awg" {
		system = unit.AWG
	}
	plainSize := bareNumber.MatchString(cell) || aughts.MatchString(cell)
	switch {
	case plainSize && size == "":
		return "", fmt.Errorf("nothing says whether this is mm² or AWG")
	case plainSize && size == "sae":
		text += " ga"
	case plainSize:
		text += " " + size
	}
	_, err = unit.ParseGauge(text, system)
	return text, err
}

// Length gives a length as the format writes it; far and commas as of a size.
func Length(cell, far string, commas bool) (string, error) {
	text, err := Pointed(cell, commas)
	if err != nil {
		return "", err
	}
	if bareNumber.MatchString(cell) {
		if far == "" {
			return "", fmt.Errorf("nothing says in which unit this is")
		}
		text += " " + far
	}
	_, err = unit.ParseLength(text)
	return text, err
}

var thousands = regexp.MustCompile(`(^|[^0-9])[1-9][0-9]{0,2}([.,])[0-9]{3}($|[^0-9])`)

// Pointed writes a decimal comma as a point. A figure that can be thousands as well, such
// as 1,250, is refused; so is 1.250 in a table with decimal commas.
func Pointed(text string, commas bool) (string, error) {
	if f := thousands.FindStringSubmatch(text); f != nil && (f[2] == "," || commas) {
		return "", fmt.Errorf("this can be one and a part, or a thousand")
	}
	return comma.ReplaceAllString(text, "$1.$2"), nil
}

// SizeOf tells how sizes that name no unit are meant: mm2 where one of them has decimals;
// awg where all are even from 8 to 30, more than one, and one is no size in mm² (12, 14, 18, 20); else
// nothing says it.
func SizeOf(cells []string) string {
	bare, even, alone := 0, true, false
	for _, c := range cells {
		if !Bare(c) {
			continue
		}
		n, err := strconv.Atoi(c)
		if err != nil {
			return "mm2"
		}
		bare++
		even = even && n >= 8 && n <= 30 && n%2 == 0
		alone = alone || n == 12 || n == 14 || n == 18 || n == 20
	}
	if even && alone && bare > 1 {
		return "awg"
	}
	return ""
}

// Millimetres tells of lengths that name no unit that they can be nothing else: all are 30
// or more, and one is above 1000, which no wire of a vehicle has in cm or inches.
func Millimetres(cells []string) bool {
	least, most := math.Inf(1), 0.0
	for _, c := range cells {
		if Bare(c) {
			v, _ := strconv.ParseFloat(strings.ReplaceAll(c, ",", "."), 64)
			least, most = min(least, v), max(most, v)
		}
	}
	return least >= 30 && most > 1000
}

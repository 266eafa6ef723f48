package rating

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"
)

//go:embed *.csv
var files embed.FS

// row is one line of a table, its cells by the name in the header.
type row map[string]string

// number reads a cell as a number; an empty cell is 0.
func (r row) number(column string) float64 {
	v, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		return 0
	}
	return v
}

// rows reads an embedded table. The tables are part of the program: CheckTables,
// which a test runs, finds every fault that this passes over.
func rows(name string) []row { return allTables()[name] }

var allTables = sync.OnceValue(func() map[string][]row {
	out := map[string][]row{}
	entries, err := files.ReadDir(".")
	if err != nil {
		return out
	}
	for _, e := range entries {
		if lines, err := readRows(e.Name()); err == nil {
			out[e.Name()] = lines
		}
	}
	return out
})

func readRows(name string) ([]row, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return parse(name, f)
}

func parse(name string, in io.Reader) ([]row, error) {
	lines, err := csv.NewReader(in).ReadAll()
	if err != nil || len(lines) < 2 {
		return nil, fmt.Errorf("table %s: %d lines, %w", name, len(lines), err)
	}
	var out []row
	for _, line := range lines[1:] {
		r := row{}
		for i, cell := range line {
			r[lines[0][i]] = cell
		}
		out = append(out, r)
	}
	return out, nil
}

// CheckTables reads every embedded table and tells of a row whose source is
// not in the list of sources, or of a table that cannot be read.
func CheckTables() error {
	entries, err := files.ReadDir(".")
	if err != nil {
		return err
	}
	known := map[string]bool{"": true}
	for _, s := range Sources() {
		known[s.Key] = true
	}
	for _, e := range entries {
		if err := checkTable(e.Name(), known); err != nil {
			return err
		}
	}
	return nil
}

func checkTable(name string, known map[string]bool) error {
	lines, err := readRows(name)
	if err != nil || name == "sources.csv" {
		return err
	}
	for i, r := range lines {
		named := false
		for column, cell := range r {
			if !strings.HasSuffix(column, "source") {
				continue
			}
			if !known[cell] {
				return fmt.Errorf("table %s: row %d names the unknown source %q", name, i+2, cell)
			}
			named = named || cell != ""
		}
		if !named {
			return fmt.Errorf("table %s: row %d names no source", name, i+2)
		}
	}
	return nil
}

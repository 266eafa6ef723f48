package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"example.com/loomfolio/cmd/loomfolio/disk"
	"example.com/loomfolio/sizing/handed"
	"example.com/loomfolio/sizing/handed/column"
	"example.com/loomfolio/sizing/handed/grid"
	"example.com/loomfolio/sizing/unit"
)

// importTables makes a description of tables that a spreadsheet saved.
func importTables(c *call) int {
	var out, parts, columns string
	files, err := c.parse("import", func(f *flag.FlagSet) {
		f.StringVar(&out, "o", "", "")
		f.StringVar(&parts, "parts", "", "")
		f.StringVar(&columns, "map", "", "")
		f.BoolVar(&c.force, "force", false, "")
	})
	if err == nil && len(files) > 1 {
		err = errors.New("import takes one table of wires")
	}
	if err == nil && len(files) == 0 && parts == "" {
		err = errors.New("say which table: WIRES.csv, or --parts PARTS.csv")
	}
	if err != nil {
		return c.wrong("import", err)
	}
	in, err := c.tables(files, parts, columns)
	if err != nil {
		return c.unusable(err, "")
	}
	if out == "" {
		out = besideTable(append(files, parts)[0])
	}
	if err := c.free(out); err != nil {
		return c.unusable(err, "name another place with -o, or replace it with --force")
	}
	res, err := handed.Describe(in)
	if err != nil {
		return c.unusable(err, "loomfolio help import lists our names of columns")
	}
	c.handed(res)
	if err := c.write(out, res.Text); err != nil {
		return c.unusable(err, "")
	}
	if out != "-" {
		fmt.Fprintf(c.err, "%s written: %s, %s; loomfolio check %s says what is missing\n", out, unit.Counted(res.Wires, "wire"), unit.Counted(res.Parts, "part"), out)
	}
	return exitGood
}

// besideTable is where the description of a table goes: wires.yaml beside wires.csv.
func besideTable(table string) string {
	if table == "-" {
		return "-"
	}
	return strings.TrimSuffix(table, filepath.Ext(table)) + ".yaml"
}

// tables reads what is handed over.
func (c *call) tables(files []string, parts, columns string) (handed.Input, error) {
	in := handed.Input{Name: "Loom"}
	var err error
	if len(files) == 1 {
		in.WiresTable = tableName(files[0])
		if in.Wires, err = c.table(files[0]); err != nil {
			return in, err
		}
		in.Name = strings.TrimSuffix(in.WiresTable, filepath.Ext(in.WiresTable))
	}
	if parts != "" {
		in.PartsTable = tableName(parts)
		if in.Parts, err = c.table(parts); err != nil {
			return in, err
		}
	}
	if columns == "" {
		return in, nil
	}
	if info, err := os.Stat(columns); err == nil && !info.IsDir() && !strings.Contains(columns, "=") {
		text, err := c.table(columns)
		if err != nil {
			return in, err
		}
		columns = string(text)
	}
	in.Map, err = column.Mapping(columns)
	return in, err
}

func tableName(path string) string {
	if path == "-" {
		return "table"
	}
	return filepath.Base(path)
}

// table reads the bytes of a table.
func (c *call) table(path string) ([]byte, error) {
	if path == "-" {
		return disk.Read(c.in, grid.MostBytes)
	}
	data, err := disk.ReadFile(path, grid.MostBytes)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, err)
	}
	if data == nil {
		data = []byte{}
	}
	return data, nil
}

// handed says what was guessed, and what could not be understood.
func (c *call) handed(res handed.Result) {
	for _, s := range res.Said {
		fmt.Fprintln(c.err, s)
	}
	if len(res.Left) > 0 {
		fmt.Fprintln(c.err, "What could not be understood:")
	}
	for _, l := range res.Left {
		fmt.Fprintf(c.err, "  %s\n", l)
	}
}

package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render/vector"
)

// drawings writes the sheets as SVG into a folder, which is made where there is
// none. Sheets of an earlier run go; other files stay.
func (c *call) drawings(dir string, p sheet.Packet) error {
	files, err := vector.Files(p)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", dir, err)
	}
	fresh := map[string]bool{}
	for _, f := range files {
		fresh[f.Name] = true
		if err := c.replace(filepath.Join(dir, f.Name), f.Data); err != nil {
			return err
		}
	}
	return sweep(dir, fresh)
}

// sweep takes away the sheets of an earlier run: a sheet that lies is worse than none.
func sweep(dir string, fresh map[string]bool) error {
	old, err := filepath.Glob(filepath.Join(dir, "*.svg"))
	if err != nil {
		return fmt.Errorf("cannot read the folder %s: %w", dir, err)
	}
	for _, path := range old {
		if fresh[filepath.Base(path)] {
			continue
		}
		text, err := os.ReadFile(path)
		if err == nil && bytes.Contains(text, []byte(vector.Signature)) {
			err = os.Remove(path)
		}
		if err != nil {
			return fmt.Errorf("cannot clear away %s: %w", path, err)
		}
	}
	return nil
}

package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/loomfolio/cmd/loomfolio/disk"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render/vector"
)

// sheetList is the name of the list of sheets in a folder: which files this program
// wrote there, each with the SHA-256 of what it wrote.
const sheetList = "sheets.txt"

// listOpening is the first line of that list.
const listOpening = "loomfolio sheets 1: what was written here; a later run replaces these files and no others"

// listed holds the sums of what was written under each name.
type listed map[string][]string

// drawings writes the sheets as SVG into a folder, which is made where there is
// none. Sheets of an earlier run go; files that are others, or that somebody has
// changed since, are not touched: one that is in the way stops it before anything
// is written, unless c.force says otherwise.
func (c *call) drawings(dir string, p sheet.Packet) error {
	files, err := vector.Files(p)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", dir, err)
	}
	old, err := c.readList(dir)
	if err != nil {
		return err
	}
	fresh := listed{}
	for _, f := range files {
		fresh[f.Name] = []string{sum(f.Data)}
		if err := c.clear(dir, f, old); err != nil {
			return err
		}
	}
	if err := c.writeList(dir, old.and(fresh)); err != nil { // so that a run that is killed leaves nothing unlisted
		return err
	}
	for _, f := range files {
		if err := c.disk.Save(filepath.Join(dir, f.Name), f.Data); err != nil {
			return err
		}
	}
	if err := c.sweep(dir, old, fresh); err != nil {
		return err
	}
	return c.writeList(dir, fresh)
}

// clear tells whether a sheet may be written: nothing is there, or what we wrote.
func (c *call) clear(dir string, f vector.File, old listed) error {
	path := filepath.Join(dir, f.Name)
	there, err := disk.ReadFile(path, mostPacket)
	if errors.Is(err, fs.ErrNotExist) || c.force {
		return nil
	}
	if err != nil {
		return fmt.Errorf("cannot read %s: %w", path, err)
	}
	if bytes.Equal(there, f.Data) || old.wrote(f.Name, there) {
		return nil
	}
	if old[f.Name] != nil {
		return fmt.Errorf("%s was changed since it was written here: move it away", path)
	}
	return fmt.Errorf("%s is there already and was not written by an earlier run: move it away", path)
}

// sweep takes away the sheets of an earlier run: a sheet that lies is worse than none.
func (c *call) sweep(dir string, old, fresh listed) error {
	disk.Sweep(dir)
	for _, name := range slices.Sorted(maps.Keys(old)) {
		if fresh[name] != nil {
			continue
		}
		path := filepath.Join(dir, name)
		there, err := disk.ReadFile(path, mostPacket)
		if err == nil && !old.wrote(name, there) {
			fmt.Fprintf(c.err, "%s: changed since it was written, so it stays; it is not of this packet\n", path)
			continue
		}
		if err == nil {
			err = os.Remove(path)
		}
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot clear away %s: %w", path, err)
		}
	}
	return nil
}

func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:])
}

// wrote tells whether data was written under the name.
func (l listed) wrote(name string, data []byte) bool { return slices.Contains(l[name], sum(data)) }

// and joins two lists.
func (l listed) and(o listed) listed {
	out := maps.Clone(l)
	for name, sums := range o {
		out[name] = append(slices.Clone(out[name]), sums...)
	}
	return out
}

// readList reads which files of a folder are ours; none where there is no list.
func (c *call) readList(dir string) (listed, error) {
	out := listed{}
	path := filepath.Join(dir, sheetList)
	text, err := disk.ReadFile(path, mostPacket)
	if errors.Is(err, fs.ErrNotExist) {
		return out, nil
	}
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, err)
	}
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	if lines[0] != listOpening && !c.force {
		return nil, fmt.Errorf("%s is not a list of sheets: move it away", path)
	}
	for _, line := range lines[1:] {
		sum, name, ok := strings.Cut(line, "  ")
		if ok && name == filepath.Base(name) && filepath.Ext(name) == ".svg" { // nothing else is ever ours
			out[name] = append(out[name], sum)
		}
	}
	return out, nil
}

func (c *call) writeList(dir string, l listed) error {
	var b strings.Builder
	b.WriteString(listOpening + "\n")
	for _, name := range slices.Sorted(maps.Keys(l)) {
		for _, sum := range l[name] {
			fmt.Fprintf(&b, "%s  %s\n", sum, name)
		}
	}
	return c.disk.Save(filepath.Join(dir, sheetList), []byte(b.String()))
}

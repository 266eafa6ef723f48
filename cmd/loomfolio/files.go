package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"example.com/loomfolio/cmd/loomfolio/disk"
	"example.com/loomfolio/render/pdf"
	reading "example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/record"
)

// text reads a description; - stands for standard input. What is longer than any
// description is an error, before all of it is read.
func (c *call) text(path string) ([]byte, error) {
	var text []byte
	var err error
	if path == "-" {
		text, err = disk.Read(c.in, reading.MostBytes)
	} else {
		text, err = disk.ReadFile(path, reading.MostBytes)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file %s", path)
	case errors.As(err, &disk.TooLong{}):
		return nil, fmt.Errorf("%s: %w, and a description may have up to 1 MB: is this the right file?", path, err)
	case err != nil:
		return nil, fmt.Errorf("cannot read %s: %w", path, err)
	}
	return text, nil
}

// beside gives the folder of a description, which its pictures lie in; nil where it has
// none. Done is called when it is no longer read.
func beside(path string) (files fs.FS, done func()) {
	if path == "-" {
		return nil, func() {}
	}
	folder, err := disk.OpenFolder(filepath.Dir(path))
	if err != nil {
		return nil, func() {} // the description itself could be read: only its pictures are left out
	}
	return folder, func() { _ = folder.Close() }
}

// write writes a finished file; the name - stands for standard output.
func (c *call) write(path string, data []byte) error {
	if path == "-" {
		_, err := c.out.Write(data)
		return err
	}
	return c.disk.Save(path, data)
}

// streamed tells whether a place is standard output, a pipe or a device.
func streamed(path string) bool {
	info, err := os.Stat(path)
	return path == "-" || err == nil && !info.Mode().IsRegular()
}

// spares refuses a place at which something would be lost: the description, its
// record, or anything else that is not a packet as it was written.
func (c *call) spares(file, out string) error {
	if out == "-" || c.force {
		return nil
	}
	if file != "-" && disk.Same(out, file) {
		return fmt.Errorf("%s is the description itself", out)
	}
	if r := c.recordPath(file); r != "" && disk.Same(out, r) {
		return fmt.Errorf("%s is the as-built record", out)
	}
	info, err := os.Stat(out)
	if err != nil || !info.Mode().IsRegular() || info.Size() == 0 {
		return nil // nothing is lost there; writing says what else is wrong
	}
	if data, err := disk.ReadFile(out, mostPacket); err != nil || !pdf.Ours(data) {
		return fmt.Errorf("%s is there already, and is not a packet as loomfolio wrote it", out)
	}
	return nil
}

// mostPacket is more than any packet has, in bytes.
const mostPacket = 1 << 28

// recordText reads a record.
func recordText(path string) ([]byte, error) {
	return disk.ReadFile(path, record.MostBytes)
}

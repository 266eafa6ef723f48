package main

import (
	"io"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/render/pdf"
)

// A pipe and a device are written into and stay what they are; a device that takes
// nothing is an error.
func TestPipesAndDevicesStay(t *testing.T) {
	file := sampleFile(t, "first")
	pipe := filepath.Join(t.TempDir(), "pipe")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	came := make(chan []byte, 1)
	go func() {
		f, err := os.Open(pipe)
		if err != nil {
			close(came)
			return
		}
		data, _ := io.ReadAll(f)
		came <- data
	}()
	code, said, errs := do("packet", file, "-o", pipe)
	require.Zero(t, code, errs)
	require.Empty(t, said, "the pipe may be standard output itself")
	require.True(t, pdf.Ours(<-came))
	info, err := os.Lstat(pipe)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeNamedPipe)

	code, out, errs := do("packet", file, "-o", "/dev/full")
	require.Equal(t, exitUnusable, code)
	require.Empty(t, out)
	require.Contains(t, errs, "cannot write /dev/full: no space left on device")
	info, err = os.Lstat("/dev/full")
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeDevice)

	code, _, errs = do("check", "/dev/zero")
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "more than 1048576 bytes")
}

// On a disk that has room for half a packet the old one stays, and nothing beside it.
func TestAFullDiskLeavesTheOldPacket(t *testing.T) {
	file, dir := sampleFile(t, "first"), t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=128k"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("no small disk can be mounted: %v", err)
		}
		t.Skipf("no small disk can be mounted: %v", err)
	}
	defer func() { require.NoError(t, syscall.Unmount(dir, 0)) }()
	pdf, built := filepath.Join(dir, "a.pdf"), filepath.Join(dir, "a.built.txt")
	require.NoError(t, os.WriteFile(pdf, nil, 0o600))
	code, _, errs := do("packet", file, "-o", pdf)
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, "no space left on device")
	require.Equal(t, map[string]string{"a.pdf": ""}, folder(t, dir))

	code, _, errs = do("freeze", file, "--record", built)
	require.Zero(t, code, errs)
	before := folder(t, dir)
	require.Error(t, os.WriteFile(filepath.Join(dir, "filler"), make([]byte, 1<<20), 0o600), "until nothing more goes in")
	code, _, errs = do("freeze", file, "--record", built, "--built", "all")
	require.Equal(t, exitUnusable, code, errs)
	require.Contains(t, errs, "no space left on device")
	require.NoError(t, os.Remove(filepath.Join(dir, "filler")))
	require.Equal(t, before, folder(t, dir))
}

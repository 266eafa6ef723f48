package pdf

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"
)

// deflatePages packs the contents of all pages, as many at a time as there are
// cores. A writer serves many pages, since making one clears more than a megabyte.
func deflatePages(d *Document, pages int) error {
	if pages > 0 && PageObject(pages-1) >= len(d.Objects) {
		return errors.New("pages are missing")
	}
	errs := make([]error, pages)
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), pages) {
		all.Go(func() {
			var p packer
			for i := int(next.Add(1)) - 1; i < pages; i = int(next.Add(1)) - 1 {
				errs[i] = p.page(d.At(PageObject(i) + 1))
			}
		})
	}
	all.Wait()
	return errors.Join(errs...)
}

// packer is a writer that is used again.
type packer struct {
	to bytes.Buffer
	w  *zlib.Writer
}

// page packs the content of a page in its place.
func (p *packer) page(o *Object) error {
	if o.Stream == nil {
		return errors.New("a page without content")
	}
	packed, err := p.pack(o.Stream)
	o.Dict, o.Stream = fmt.Appendf(nil, "<</Filter /FlateDecode /Length %d>>", len(packed)), packed
	return err
}

func (p *packer) pack(data []byte) ([]byte, error) {
	p.to.Reset()
	if p.w == nil {
		w, err := zlib.NewWriterLevel(&p.to, zlib.BestSpeed)
		if err != nil {
			return nil, err
		}
		p.w = w
	} else {
		p.w.Reset(&p.to)
	}
	if _, err := p.w.Write(data); err != nil {
		return nil, err
	}
	err := p.w.Close()
	return bytes.Clone(p.to.Bytes()), err
}

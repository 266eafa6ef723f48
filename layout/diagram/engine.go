package diagram

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"strconv"
	"strings"
	"sync"

	"example.com/loomfolio/layout/diagram/private"

	"github.com/goccy/go-graphviz"
)

// restored is evaluated once the graph library has started (see package private).
//
//lint:ignore U1000 it is the evaluating that counts
var restored = private.Restore()

// oneAtATime guards the graph library, which is one machine for the process.
var oneAtATime sync.Mutex

// mostNodes bounds a single graph given to the library.
const mostNodes = 2000

// nothing is an empty file system: the library shall read no file.
type nothing struct{}

func (nothing) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// spot is a node's centre as the library gives it: points, y upward.
type spot struct{ X, Y float64 }

// runDot lays a graph out with dot and gives the centre of each named node.
func runDot(source string, nodes int) (map[string]spot, error) {
	if nodes > mostNodes {
		return nil, fmt.Errorf("diagram: %d nodes in one graph, at most %d", nodes, mostNodes)
	}
	out, err := render(source)
	if err != nil {
		return nil, err
	}
	return readSpots(out, nodes)
}

func render(source string) (out []byte, err error) {
	oneAtATime.Lock()
	defer oneAtATime.Unlock()
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("diagram: the graph library stopped: %v", r)
		}
	}()
	graphviz.SetFileSystem(nothing{})
	ctx := context.Background()
	g, err := graphviz.New(ctx)
	if err != nil {
		return nil, fmt.Errorf("diagram: %w", err)
	}
	defer g.Close()
	graph, err := graphviz.ParseBytes([]byte(source))
	if err != nil {
		return nil, fmt.Errorf("diagram: %w", err)
	}
	if graph == nil {
		return nil, errors.New("diagram: the graph library gave no graph")
	}
	defer graph.Close()
	var b bytes.Buffer
	if err := g.SetLayout(graphviz.DOT).Render(ctx, graph, "json0", &b); err != nil {
		return nil, fmt.Errorf("diagram: %w", err)
	}
	return b.Bytes(), nil
}

func readSpots(out []byte, nodes int) (map[string]spot, error) {
	var doc struct {
		Objects []struct{ Name, Pos string }
	}
	if err := json.Unmarshal(out, &doc); err != nil {
		return nil, fmt.Errorf("diagram: unreadable layout: %w", err)
	}
	spots := map[string]spot{}
	for _, o := range doc.Objects {
		x, y, ok := strings.Cut(o.Pos, ",")
		if !ok {
			continue
		}
		px, err1 := strconv.ParseFloat(x, 64)
		py, err2 := strconv.ParseFloat(y, 64)
		if err1 != nil || err2 != nil || math.IsNaN(px+py) || math.IsInf(px+py, 0) {
			return nil, fmt.Errorf("diagram: node %s is nowhere: %q", o.Name, o.Pos)
		}
		spots[o.Name] = spot{px, py}
	}
	if len(spots) < nodes {
		return nil, fmt.Errorf("diagram: %d of %d nodes came back", len(spots), nodes)
	}
	return spots, nil
}

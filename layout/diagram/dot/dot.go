// Package dot asks the graph library: a graph in its language in, the centre of each
// named node out. It gives coordinates only; sizes are fixed and no text is drawn.
package dot

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

// PerMM is how many of the library's points stand for one mm, so that a grid of
// quarters of a millimetre comes out in whole points.
const PerMM = 4

// Spot is a node's centre as the library gives it: points, y upward.
type Spot struct{ X, Y float64 }

// Run lays a graph out with dot and gives the centre of each named node,
// of which there are so many.
func Run(source string, nodes int) (map[string]Spot, error) {
	if nodes > mostNodes {
		return nil, fmt.Errorf("dot: %d nodes in one graph, at most %d", nodes, mostNodes)
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
			err = fmt.Errorf("dot: the graph library stopped: %v", r)
		}
	}()
	graphviz.SetFileSystem(nothing{})
	ctx := context.Background()
	g, err := graphviz.New(ctx)
	if err != nil {
		return nil, fmt.Errorf("dot: %w", err)
	}
	defer g.Close()
	graph, err := graphviz.ParseBytes([]byte(source))
	if err != nil {
		return nil, fmt.Errorf("dot: %w", err)
	}
	if graph == nil {
		return nil, errors.New("dot: the graph library gave no graph")
	}
	defer graph.Close()
	var b bytes.Buffer
	if err := g.SetLayout(graphviz.DOT).Render(ctx, graph, "json0", &b); err != nil {
		return nil, fmt.Errorf("dot: %w", err)
	}
	return b.Bytes(), nil
}

func readSpots(out []byte, nodes int) (map[string]Spot, error) {
	var doc struct {
		Objects []struct{ Name, Pos string }
	}
	if err := json.Unmarshal(out, &doc); err != nil {
		return nil, fmt.Errorf("dot: unreadable layout: %w", err)
	}
	spots := map[string]Spot{}
	for _, o := range doc.Objects {
		x, y, ok := strings.Cut(o.Pos, ",")
		if !ok {
			continue
		}
		px, err1 := strconv.ParseFloat(x, 64)
		py, err2 := strconv.ParseFloat(y, 64)
		if err1 != nil || err2 != nil || math.IsNaN(px+py) || math.IsInf(px+py, 0) {
			return nil, fmt.Errorf("dot: node %s is nowhere: %q", o.Name, o.Pos)
		}
		spots[o.Name] = Spot{px, py}
	}
	if len(spots) < nodes {
		return nil, fmt.Errorf("dot: %d of %d nodes came back", len(spots), nodes)
	}
	return spots, nil
}

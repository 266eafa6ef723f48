package choose_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/ampacity"
	"example.com/loomfolio/sizing/choose/demand"
	"example.com/loomfolio/sizing/choose/protect"
	"example.com/loomfolio/sizing/choose/trial"
)

// Each stage writes its own fields alone: what one has come to, no other changes.
func TestNoFieldIsWrittenByTwoStages(t *testing.T) {
	owner := map[string]string{}
	for _, of := range []struct {
		dir  string
		what any
	}{
		{"trial", trial.Base{}}, {"trial", trial.Solved{}}, {"trial", trial.Trial{}}, {"demand", demand.Demand{}},
		{"ampacity", ampacity.Ampacity{}}, {"protect", protect.Protection{}},
		{".", choose.Held{}}, {".", choose.Round{}}, {".", choose.Settled{}},
	} {
		for _, f := range reflect.VisibleFields(reflect.TypeOf(of.what)) {
			if len(f.Index) == 1 && !f.Anonymous {
				owner[f.Name] = of.dir
			}
		}
	}
	delete(owner, "Fuses")  // pins and results have one of that name
	delete(owner, "Groups") // and so has the problem that copper solves
	for _, dir := range []string{"trial", "demand", "ampacity", "protect", ".", "reason", "finding"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, file := range files {
			for _, name := range written(t, file) {
				if own, known := owner[name]; known {
					require.Equal(t, own, dir, "%s writes %s, which another stage has come to", file, name)
				}
			}
		}
	}
}

// written lists the fields that a file writes, and those that it writes into.
func written(t *testing.T, file string) []string {
	if strings.HasSuffix(file, "_test.go") {
		return nil
	}
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	require.NoError(t, err)
	var out []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			for _, to := range n.Lhs {
				out = append(out, fieldsOf(to)...)
			}
		case *ast.IncDecStmt:
			out = append(out, fieldsOf(n.X)...)
		}
		return true
	})
	return out
}

// fieldsOf lists the fields on the way to what is written.
func fieldsOf(e ast.Expr) []string {
	switch e := e.(type) {
	case *ast.SelectorExpr:
		return append(fieldsOf(e.X), e.Sel.Name)
	case *ast.IndexExpr:
		return fieldsOf(e.X)
	case *ast.StarExpr:
		return fieldsOf(e.X)
	case *ast.ParenExpr:
		return fieldsOf(e.X)
	}
	return nil
}

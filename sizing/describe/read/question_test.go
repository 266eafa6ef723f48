package read

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// TestQuestions: an unquoted question mark is a plain word wherever a value or an item can
// begin, in the column in which it stands; texts that hold one are as they were.
func TestQuestions(t *testing.T) {
	for text, want := range map[string][]string{
		"a: [F3, ?]":                     {"F3", "?"},
		"a: [F3, ?2, X]":                 {"F3", "?2", "X"},
		"a: [ ? behind dash, F3]":        {"? behind dash", "F3"},
		"a: [\"?\", '? x']":              {"?", "? x"},
		"a:\n  - F3\n  - ?\n":            {"F3", "?"},
		"a: [F3,\n  ?]":                  {"F3", "?"},
		"a: [{to: ?, colour: GN/BK}]":    {"to", "?", "colour", "GN/BK"},
		"a: [why? no, \"so, ? or not\"]": {"why? no", "so, ? or not"},
	} {
		root, err := decode(text)
		require.NoError(t, err, text)
		require.Equal(t, want, words(root.Content[1], nil), text)
	}
	root, err := decode("a: [F3, ? x, G1]")
	require.NoError(t, err)
	require.Equal(t, 9, root.Content[1].Content[1].Column)
	root, err = decode("a: |\n  what, ?\n  ? here\n")
	require.NoError(t, err)
	require.Equal(t, "what, ?\n? here\n", root.Content[1].Value)
}

func words(n *yaml.Node, out []string) []string {
	if n.Kind == yaml.ScalarNode {
		out = append(out, n.Value)
	}
	for _, c := range n.Content {
		out = words(c, out)
	}
	return out
}

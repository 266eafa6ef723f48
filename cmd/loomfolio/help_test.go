package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var (
	rowOfCommand = regexp.MustCompile("(?m)^\\| `((?:[^`])+)` \\|")
	optionIn     = regexp.MustCompile(`(?:^|[\s\[(|])(--?[a-z][a-z-]*)`)
	optionMade   = regexp.MustCompile(`(?:Var\(&[\w.]+, |f\.Func\()"([a-z-]+)"`)
	exitCodesIn  = regexp.MustCompile(`Exit codes: 0 good[^.]*\.`)
	inBrackets   = regexp.MustCompile(` \([^)]*\)`)
)

func readme(t *testing.T) string {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	return string(text)
}

// options lists those that a text names, each once.
func options(text string) []string {
	var out []string
	for _, m := range optionIn.FindAllStringSubmatch(text, -1) {
		out = append(out, strings.TrimLeft(m[1], "-"))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// accepted lists the options that a command takes, of all that the program defines anywhere.
func accepted(t *testing.T, command string) []string {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	var out []string
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		for _, m := range optionMade.FindAllStringSubmatch(string(text), -1) {
			if _, _, errs := do(command, "--"+m[1]); !strings.Contains(errs, "there is no option") {
				out = append(out, m[1])
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestREADMEHasTheCommandsOfHelp: the same commands, called the same way, in the same order.
func TestREADMEHasTheCommandsOfHelp(t *testing.T) {
	var said, have []string
	for _, v := range verbs() {
		said = append(said, v.usage)
	}
	for _, m := range rowOfCommand.FindAllStringSubmatch(readme(t), -1) {
		have = append(have, strings.ReplaceAll(m[1], `\|`, "|"))
	}
	require.ElementsMatch(t, said, have)
}

// TestHelpHasTheOptionsThatAreTaken: each is in the command's usage and explained, and none
// that it does not take. Those of the record and of the variant are told once for all commands.
func TestHelpHasTheOptionsThatAreTaken(t *testing.T) {
	common := options(closing)
	require.Equal(t, []string{"no-record", "record", "variant"}, common)
	require.Subset(t, options(strings.ReplaceAll(readme(t), "`", " ")), common)
	for _, v := range verbs() {
		if v.name == "help" {
			continue
		}
		takes := accepted(t, v.name)
		used := options(v.usage)
		require.Subset(t, takes, used, v.name)
		for _, o := range takes {
			require.True(t, slices.Contains(used, o) || slices.Contains(common, o), "%s takes --%s, and its usage does not say so: %s", v.name, o, v.usage)
			if !slices.Contains(common, o) {
				require.Contains(t, options(details[v.name]), o, "help %s explains it", v.name)
			}
		}
	}
}

// TestExitCodesAreToldAlike: help and README have the same words for the same numbers.
func TestExitCodesAreToldAlike(t *testing.T) {
	told := func(text string) string {
		return strings.Join(strings.Fields(inBrackets.ReplaceAllString(exitCodesIn.FindString(text), "")), " ")
	}
	require.Equal(t, told(closing), told(readme(t)))
	require.Regexp(t, `^Exit codes: 0 good; 1 a finding of level error; 2 bad input .*\.$`, told(closing))
	require.Equal(t, []int{0, 1, 2}, []int{exitGood, exitFinding, exitUnusable})
}

// Package source holds positions in the description's text and the problems
// found there. In: the bytes of a file, and of those that it includes. Out: problems
// in a fixed order and a printer that shows each with its source line and the place marked.
//
// Lines and columns are counted from 1; columns count characters, not bytes.
package source

import (
	"fmt"
	"sort"
	"strings"
	"unicode/utf8"
)

// File is one description as it was read, with the files that it includes.
type File struct {
	Name     string // as messages show it
	Path     string // of an included one: from the description's folder on
	Text     []byte
	Included []*File // in the order of inclusion; Span.File counts them from 1
	Uses     []Use   // of what is written once and read in several places; Span.Use counts them from 1
	lines    []string
}

// NewFile keeps the text and its lines, without line ends and without the byte
// order mark that some editors put first.
func NewFile(name string, text []byte) *File {
	body := strings.TrimPrefix(string(text), "\ufeff")
	body = strings.ReplaceAll(body, "\r\n", "\n")
	return &File{Name: name, Text: text, lines: strings.Split(body, "\n")}
}

// Line gives the text of a line counted from 1, or "" when there is none.
func (f *File) Line(n int) string {
	if f == nil || n < 1 || n > len(f.lines) {
		return ""
	}
	return f.lines[n-1]
}

// Pos is a place in a file: line and column from 1. The zero Pos is "no place".
type Pos struct{ Line, Column int }

// Span is a stretch of text on one line: from Start, Width characters wide.
// A zero Span means that the value was not written in the file.
type Span struct {
	Start Pos
	Width int
	File  int // 0 the description itself, else the number of the file that it includes
	Use   int // of what is written once and read in several places: the number of the use, else 0
}

// At makes a span in the description itself.
func At(line, column, width int) Span {
	return Span{Start: Pos{Line: line, Column: column}, Width: width}
}

// Known tells whether the span points at anything.
func (s Span) Known() bool { return s.Start.Line > 0 }

// Moved is another stretch of the same line.
func (s Span) Moved(column, width int) Span {
	s.Start.Column, s.Width = column, width
	return s
}

// Before orders spans by their place: the description before the files that it
// includes, those in the order of inclusion.
func (s Span) Before(o Span) bool {
	switch {
	case s.File != o.File:
		return s.File < o.File
	case s.Start.Line != o.Start.Line:
		return s.Start.Line < o.Start.Line
	case s.Start.Column != o.Start.Column:
		return s.Start.Column < o.Start.Column
	}
	return s.Use < o.Use
}

// Width counts the characters of a text as columns are counted.
func Width(text string) int { return utf8.RuneCountInString(text) }

// Level says how grave a problem is.
type Level int

// The three levels, gravest first.
const (
	Error Level = iota
	Warning
	Advice
)

// String gives the level's word.
func (l Level) String() string {
	return [...]string{"error", "warning", "advice"}[l]
}

// Note is a second place that belongs to a problem.
type Note struct {
	Span Span
	Text string
}

// Number is a figure that a finding rests on, for example {"drop_v", 0.41}.
type Number struct {
	Name  string
	Value float64
}

// Some names the first four of a list and counts the rest, as so many more of what.
func Some(names []string, what string) string {
	const most = 4
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more%s", strings.Join(names[:most], ", "), len(names)-most, what)
}

// Problem is one finding: what is wrong, where, and what would be right.
type Problem struct {
	Slug     string // plain words with hyphens, for example "unknown-key"
	Level    Level
	Span     Span
	Summary  string   // one line: what is wrong
	Detail   string   // what to do
	Others   []Note   // other places that belong to it
	Subjects []string // wires, parts and states that it speaks of
	Gathers  bool     // the subjects are several of a kind, told together: it is accepted only where each of them is
	Numbers  []Number
}

// Accepted is an advice that the description takes off the list, and why.
type Accepted struct {
	Problem
	Because string
}

// Problems is a list of findings.
type Problems []Problem

// HasErrors tells whether any problem is of level error.
func (ps Problems) HasErrors() bool { return ps.Count(Error) > 0 }

// Count gives the number of problems of one level.
func (ps Problems) Count(level Level) int {
	n := 0
	for _, p := range ps {
		if p.Level == level {
			n++
		}
	}
	return n
}

// Counted says how many problems there are, the gravest first, and how many were
// accepted: "1 error, 2 advisories, 1 accepted"; "no findings" where there are none.
func Counted(ps Problems, accepted []Accepted) string {
	var parts []string
	for i, words := range [][2]string{{"error", "errors"}, {"warning", "warnings"}, {"advisory", "advisories"}} {
		if n := ps.Count(Level(i)); n == 1 {
			parts = append(parts, "1 "+words[0])
		} else if n > 1 {
			parts = append(parts, fmt.Sprintf("%d %s", n, words[1]))
		}
	}
	if len(parts) == 0 {
		parts = append(parts, "no findings")
	}
	if n := len(accepted); n > 0 {
		parts = append(parts, fmt.Sprintf("%d accepted", n))
	}
	return strings.Join(parts, ", ")
}

// Sorted gives the problems in the fixed order in which they are printed:
// errors first, then warnings, then advice; within a level by place, then slug and
// summary, those without a place last. Exact repeats (same place, slug and summary) are dropped.
func (ps Problems) Sorted() Problems {
	out := append(Problems(nil), ps...)
	sort.SliceStable(out, func(i, j int) bool { return less(out[i], out[j]) })
	type heard struct {
		at            Span
		slug, summary string
	}
	said := map[heard]bool{}
	kept := out[:0]
	for _, p := range out {
		at := p.Span
		at.Use = 0 // what is wrong where it is written is wrong in every use
		if h := (heard{at, p.Slug, p.Summary}); !said[h] {
			said[h] = true
			kept = append(kept, p)
		}
	}
	return kept
}

func less(a, b Problem) bool {
	if a.Level != b.Level {
		return a.Level < b.Level
	}
	if a.Span.Known() != b.Span.Known() {
		return a.Span.Known()
	}
	if a.Span != b.Span && (a.Span.Before(b.Span) || b.Span.Before(a.Span)) {
		return a.Span.Before(b.Span)
	}
	if a.Slug != b.Slug {
		return a.Slug < b.Slug
	}
	return a.Summary < b.Summary
}

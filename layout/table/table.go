// Package table lays out tables over as many sheets as they need.
//
// In comes a Table (columns, rows, what each cell holds) and the areas to fill;
// out come the marks for each sheet. It holds that no text is cut off: what does
// not fit is wrapped, a row higher than a sheet is continued on the next, and the
// header stands on every sheet; a group heading never stands alone at a foot, and a
// sum never alone at a head. All lengths are mm.
//
// Column widths: each column gets its least width (its widest unbreakable word).
// What is left is shared equally until a column need not wrap any more, so that
// the long texts wrap first; then width is moved between columns as long as that makes the
// table lower. What nobody needs goes to the columns with a Weight. The
// least and the ideal width are the minimum and maximum content widths of CSS 2.1,
// section 17.5.2.2.
package table

import "example.com/loomfolio/layout/sheet"

// Align places the text of a column.
type Align int

// The alignments. Decimal sets the decimal points of single-line numbers under each other.
const (
	Left Align = iota
	Centre
	Right
	Decimal
)

// Column is one column of a table.
type Column struct {
	Title  string
	Unit   string  // under or after the title: mm, A, mm² …
	Min    float64 // least width with its padding; 0: what the content needs
	Max    float64 // greatest width; 0: none
	Weight float64 // share of the width that nobody needs
	Align  Align
}

// Cell is what stands in one column of a row: a drawing, then text, then a note under it.
type Cell struct {
	S      string        // wraps; line breaks stay
	Bold   bool          //
	Size   float64       // font size; 0: the table's
	Colour *sheet.Colour // nil: ink
	Note   string        // smaller and grey, under the text
	Draw   *Drawing      // left of the text, or alone
	Link   string        // anchor that the cell leads to
	Span   int           // columns that the cell takes; 0 or 1: one
}

// Drawing is a picture of fixed size in a cell: a swatch, a box to tick.
type Drawing struct {
	W, H float64
	Draw func(c *sheet.Canvas, area sheet.Rect) // area is W × H
}

// Kind says what a row is.
type Kind int

// The kinds.
const (
	Plain Kind = iota
	Group      // a heading over the rows that follow, across all columns; cell 0 has the text, cell 1 a remark at the right
	Sum        // bold under a rule, kept with the row before it
)

// Row is one row; missing cells at its end are empty.
type Row struct {
	Kind   Kind
	Cells  []Cell
	Anchor string  // name of the place for links; "" for none
	High   float64 // least height, such as room to write by hand
	again  bool    // a heading repeated on a further sheet
}

// Table is a whole table.
type Table struct {
	Columns []Column
	Rows    []Row
	Size    float64 // font size of the body; 0: sheet.SizeBody
	Rigid   bool    // do not fill the width: leave what the columns do not need free
	NoHead  bool    // no header row
	NoZebra bool    // no pale ground under every second row
	Company bool    // no row under a heading stands alone on a sheet
	Tight   bool    // one line an item: cells closer to each other, a heavier rule under each fifth row
	Even    bool    // of one that is tight: all rules alike, for rows of several lines
	Pad     float64 // over and under each row, mm; 0: what is usual
}

// Part is what falls on one sheet.
type Part struct {
	Marks  []sheet.Mark
	Bottom float64 // where the table ends on this sheet
	from   int     // the first block on it; a block is rows that stay together
	blocks int     // how many begin on it
}

// Text is a plain cell.
func Text(s string) Cell { return Cell{S: s} }

// Strong is a bold cell.
func Strong(s string) Cell { return Cell{S: s, Bold: true} }

// Noted is a cell with a second line in small grey.
func Noted(s, note string) Cell { return Cell{S: s, Note: note} }

// Texts is a row of plain cells.
func Texts(cells ...string) Row {
	row := Row{}
	for _, s := range cells {
		row.Cells = append(row.Cells, Text(s))
	}
	return row
}

// Heading is a group heading with a remark at its right end.
func Heading(s, remark string) Row {
	return Row{Kind: Group, Cells: []Cell{Strong(s), Text(remark)}}
}

// TickBox is an empty box to tick by hand.
func TickBox() *Drawing {
	return &Drawing{W: 3.6, H: 3.6, Draw: func(c *sheet.Canvas, a sheet.Rect) {
		c.Rect(a.X+0.2, a.Y+0.2, a.W-0.4, a.H-0.4, sheet.Outline(sheet.Solid(sheet.Medium)))
	}}
}

// Blank is a line of a length to write on.
func Blank(length float64) *Drawing {
	return &Drawing{W: length, H: 4.5, Draw: func(c *sheet.Canvas, a sheet.Rect) {
		c.Line(a.X, a.Bottom()-0.3, a.Right(), a.Bottom()-0.3, sheet.Solid(sheet.Thin))
	}}
}

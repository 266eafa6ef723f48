package describe

import (
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Labels is how markers are made; what is not given follows from the sheet.
type Labels struct {
	As     read.Word // wrap flag sleeve
	Length read.Value[unit.Millimetre]
	Pitch  read.Value[unit.Millimetre]
	Sheet  LabelSheet
	Roll   LabelRoll
}

// LabelSheet is where the labels lie on the shop's sheets.
type LabelSheet struct {
	Paper                  read.Word
	Across, Down, First    read.Value[int]
	Width, Height          read.Value[unit.Millimetre]
	Left, Top              read.Value[unit.Millimetre]
	PitchAcross, PitchDown read.Value[unit.Millimetre]
	Clear                  read.Value[unit.Millimetre]
	Span                   source.Span // of the key; not known where there is none
}

// LabelRoll is a strip of labels without an end.
type LabelRoll struct {
	Width, Pitch, Label, Clear read.Value[unit.Millimetre]
	Span                       source.Span
}

var labelKeys = []read.Key[Labels]{
	read.Choice("as", []string{"wrap", "flag", "sleeve"}, func(l *Labels) *read.Word { return &l.As }),
	stretchOf("length", func(l *Labels) *read.Value[unit.Millimetre] { return &l.Length }),
	stretchOf("pitch", func(l *Labels) *read.Value[unit.Millimetre] { return &l.Pitch }),
	read.Custom("sheet", "keys with values: "+read.ListOf(labelSheetKeys), func(r *read.Reader, e read.Entry, l *Labels) {
		l.Sheet.Span = e.Key.Span
		read.Mapping(r, e, labelSheetKeys, &l.Sheet)
	}),
	read.Custom("roll", "keys with values: "+read.ListOf(labelRollKeys), func(r *read.Reader, e read.Entry, l *Labels) {
		l.Roll.Span = e.Key.Span
		read.Mapping(r, e, labelRollKeys, &l.Roll)
	}),
}

var labelSheetKeys = []read.Key[LabelSheet]{
	read.Choice("paper", unit.Papers(), func(s *LabelSheet) *read.Word { return &s.Paper }),
	read.Needed(counted("across", "a number of labels", func(s *LabelSheet) *read.Value[int] { return &s.Across })),
	read.Needed(counted("down", "a number of rows", func(s *LabelSheet) *read.Value[int] { return &s.Down })),
	read.Needed(stretchOf("width", func(s *LabelSheet) *read.Value[unit.Millimetre] { return &s.Width })),
	read.Needed(stretchOf("height", func(s *LabelSheet) *read.Value[unit.Millimetre] { return &s.Height })),
	read.Needed(length("left", func(s *LabelSheet) *read.Value[unit.Millimetre] { return &s.Left })),
	read.Needed(length("top", func(s *LabelSheet) *read.Value[unit.Millimetre] { return &s.Top })),
	stretchOf("pitch-across", func(s *LabelSheet) *read.Value[unit.Millimetre] { return &s.PitchAcross }),
	stretchOf("pitch-down", func(s *LabelSheet) *read.Value[unit.Millimetre] { return &s.PitchDown }),
	counted("first", "the number of the first label that is still there", func(s *LabelSheet) *read.Value[int] { return &s.First }),
	length("clear", func(s *LabelSheet) *read.Value[unit.Millimetre] { return &s.Clear }),
}

var labelRollKeys = []read.Key[LabelRoll]{
	read.Needed(stretchOf("width", func(s *LabelRoll) *read.Value[unit.Millimetre] { return &s.Width })),
	read.Needed(stretchOf("pitch", func(s *LabelRoll) *read.Value[unit.Millimetre] { return &s.Pitch })),
	stretchOf("label", func(s *LabelRoll) *read.Value[unit.Millimetre] { return &s.Label }),
	length("clear", func(s *LabelRoll) *read.Value[unit.Millimetre] { return &s.Clear }),
}

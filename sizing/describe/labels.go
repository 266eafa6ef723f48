package describe

import (
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// Labels is how markers are made; what is not given follows from the sheet.
type Labels struct {
	As     Word // wrap flag sleeve
	Length Value[unit.Millimetre]
	Pitch  Value[unit.Millimetre]
	Sheet  LabelSheet
	Roll   LabelRoll
}

// LabelSheet is where the labels lie on the shop's sheets.
type LabelSheet struct {
	Paper                  Word
	Across, Down, First    Value[int]
	Width, Height          Value[unit.Millimetre]
	Left, Top              Value[unit.Millimetre]
	PitchAcross, PitchDown Value[unit.Millimetre]
	Clear                  Value[unit.Millimetre]
	Span                   source.Span // of the key; not known where there is none
}

// LabelRoll is a strip of labels without an end.
type LabelRoll struct {
	Width, Pitch, Label, Clear Value[unit.Millimetre]
	Span                       source.Span
}

var labelKeys = []key[Labels]{
	choice("as", []string{"wrap", "flag", "sleeve"}, func(l *Labels) *Word { return &l.As }),
	stretchOf("length", func(l *Labels) *Value[unit.Millimetre] { return &l.Length }),
	stretchOf("pitch", func(l *Labels) *Value[unit.Millimetre] { return &l.Pitch }),
	custom("sheet", "keys with values: "+listOf(labelSheetKeys), func(r *reader, e entry, l *Labels) {
		l.Sheet.Span = e.key.Span
		read(r, e, labelSheetKeys, &l.Sheet)
	}),
	custom("roll", "keys with values: "+listOf(labelRollKeys), func(r *reader, e entry, l *Labels) {
		l.Roll.Span = e.key.Span
		read(r, e, labelRollKeys, &l.Roll)
	}),
}

var labelSheetKeys = []key[LabelSheet]{
	choice("paper", unit.Papers(), func(s *LabelSheet) *Word { return &s.Paper }),
	needed(counted("across", "a number of labels", func(s *LabelSheet) *Value[int] { return &s.Across })),
	needed(counted("down", "a number of rows", func(s *LabelSheet) *Value[int] { return &s.Down })),
	needed(stretchOf("width", func(s *LabelSheet) *Value[unit.Millimetre] { return &s.Width })),
	needed(stretchOf("height", func(s *LabelSheet) *Value[unit.Millimetre] { return &s.Height })),
	needed(length("left", func(s *LabelSheet) *Value[unit.Millimetre] { return &s.Left })),
	needed(length("top", func(s *LabelSheet) *Value[unit.Millimetre] { return &s.Top })),
	stretchOf("pitch-across", func(s *LabelSheet) *Value[unit.Millimetre] { return &s.PitchAcross }),
	stretchOf("pitch-down", func(s *LabelSheet) *Value[unit.Millimetre] { return &s.PitchDown }),
	counted("first", "the number of the first label that is still there", func(s *LabelSheet) *Value[int] { return &s.First }),
	length("clear", func(s *LabelSheet) *Value[unit.Millimetre] { return &s.Clear }),
}

var labelRollKeys = []key[LabelRoll]{
	needed(stretchOf("width", func(s *LabelRoll) *Value[unit.Millimetre] { return &s.Width })),
	needed(stretchOf("pitch", func(s *LabelRoll) *Value[unit.Millimetre] { return &s.Pitch })),
	stretchOf("label", func(s *LabelRoll) *Value[unit.Millimetre] { return &s.Label }),
	length("clear", func(s *LabelRoll) *Value[unit.Millimetre] { return &s.Clear }),
}

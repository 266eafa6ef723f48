package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/layout"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/rating"
)

var (
	sheetLine = regexp.MustCompile(`(?m)^sheet:.*$`)
	// metric is a figure in a unit that an imperial sheet does not speak.
	metric      = regexp.MustCompile(`\d(?:\s?(?:mm²?|cm|kg)| (?:m|g))(?:[^\pL\d²·/]|$)`)
	givenMetric = regexp.MustCompile(`[\d.]+ mm2`)
	// numbered are the gauges that stand for the sizes which the samples give.
	numbered = map[string]string{"0.5": "20", "0.75": "18", "1": "17", "1.5": "15", "2.5": "13", "4": "11", "6": "9", "10": "7", "16": "5", "25": "3", "35": "1", "50": "1/0", "70": "3/0", "95": "4/0"}
	// metricFine stand on an imperial sheet too: the cores of a cable that is made to a metric standard.
	metricFine = regexp.MustCompile(`\b(?:1\.5|2\.5) mm²`)
)

// imperial gives a sample as it would be written for a shop that works in inches and gauges.
func imperial(t *testing.T, s samples.Sample) *work.Work {
	t.Helper()
	text := sheetLine.ReplaceAllString(string(s.Text), "sheet: {paper: letter, units: imperial, gauge: awg}")
	if !strings.Contains(text, "units: imperial") {
		text = strings.Replace(text, "\nsystem:", "\nsheet: {paper: letter, units: imperial, gauge: awg}\nsystem:", 1)
	}
	require.Contains(t, text, "units: imperial")
	text = givenMetric.ReplaceAllStringFunc(text, func(size string) string { return numbered[strings.TrimSpace(strings.TrimSuffix(size, "mm2"))] + " awg" })
	w, err := work.Do(work.Source{Name: s.Name + ".yaml", Text: []byte(text)})
	require.NoError(t, err)
	return w
}

// withoutSources takes out what the sources say, who keep their own units.
func withoutSources(text string) string {
	for _, s := range rating.Sources() {
		for _, part := range strings.Split(s.Title, ": ") {
			if metric.MatchString(part) {
				text = strings.ReplaceAll(strings.ReplaceAll(text, part, "¤"), strings.ToUpper(part[:1])+part[1:], "¤")
			}
		}
	}
	return text
}

// inInches looks for metric figures in texts.
func inInches(t *testing.T, texts []said) {
	t.Helper()
	told := map[string]int{}
	for _, s := range texts {
		joined := strings.Join(strings.Fields(strings.NewReplacer("\u00a0", " ", " | ", " ").Replace(s.text)), " ")
		text := withoutSources(metricFine.ReplaceAllString(joined, "¤"))
		for _, at := range metric.FindAllStringIndex(text, -1) {
			if told[roomOf(s.where)]++; told[roomOf(s.where)] <= 3 {
				t.Errorf("%s: …%q…", s.where, text[max(0, at[0]-50):min(len(text), at[1]+20)])
			}
		}
	}
}

// TestImperialFindings: findings, reasons, summaries and what explain prints of an imperial
// description have no millimetres, metres or grams.
func TestImperialFindings(t *testing.T) {
	wholeRun(t)
	for _, s := range samples.List() {
		w := imperial(t, s)
		texts := append(problemsOf(s.Name+" findings", w.Result.Findings), said{s.Name + " summary", summary(w)}, said{s.Name + " reasons", reasonsOf(w)})
		for i := range w.Harness.Parts {
			texts = append(texts, toldBy(t, s.Name+" explain", w, w.Harness.Parts[i].Ref))
		}
		for i := range w.Harness.Wires[:min(len(w.Harness.Wires), 6)] {
			texts = append(texts, toldBy(t, s.Name+" explain wire", w, w.Harness.Wires[i].Name))
		}
		inInches(t, texts)
	}
}

// TestImperialSheets: nor have the sheets.
func TestImperialSheets(t *testing.T) {
	wholeRun(t)
	for _, s := range samples.List() {
		w := imperial(t, s)
		for _, reader := range layout.Readers() {
			p, err := layout.Plan(w.Harness, w.Result, layout.Options{For: reader, FileName: s.Name + ".yaml"})
			require.NoError(t, err)
			inInches(t, printedText(p, s.Name+" "+reader))
		}
	}
}

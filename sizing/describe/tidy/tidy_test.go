package tidy

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSeeds: what the fuzzing begins from is tidied, all but what has errors of form.
func TestSeeds(t *testing.T) {
	done := 0
	for _, s := range seeds(t) {
		if tidied(t, s) != "" {
			done++
		}
	}
	require.Greater(t, done, 150, "most of them have no errors of form")
}

// TestCommentsStayBeside: every comment stands beside what it stood beside.
func TestCommentsStayBeside(t *testing.T) {
	want, err := os.ReadFile("testdata/commented.yaml")
	require.NoError(t, err)
	require.Equal(t, string(want), tidied(t, commented))
	want, err = os.ReadFile("testdata/strange.yaml")
	require.NoError(t, err)
	require.Equal(t, string(want), tidied(t, strange))
}

// TestAnchorsAndNewSections: marks and aliases stay as they are, sections that the tables
// do not know keep their order, and a template has the sections of a file.
func TestAnchorsAndNewSections(t *testing.T) {
	const text = `title: t
loomfolio: 1
include: [shop.yaml,   # the shop's
  parts.yaml]
templates:
  lamp: {use: [side], parts: {L<side>: {at: nose, kind: lamp, draws: 5 W}}, circuits: {side-<side>: {legs: [[F1, L<side>, G1]], number: 3}}}
measured: {FAN.+: 10.8 V @ driving, X2.4: "?"}
variants: {towing: {with: [tow.yaml]}, basic: {without: [fog]}}
parts:
  FAN: &fan {draws: 20 A, kind: motor}   # the first
  FAN2: *fan
  FAN3: {<<: *fan, name: third}
circuits: {c: {legs: [&feed [BAT.+, F1], *feed, [A, {to: "?"}]]}}
`
	const want = `loomfolio: 1
title: t

include: [shop.yaml,   # the shop's
    parts.yaml]

templates:
  lamp:
    use: [side]
    parts:
      L<side>: {kind: lamp, at: nose, draws: 5 W}
    circuits:
      side-<side>:
        number: 3
        legs:
          - [F1, L<side>, G1]

parts:
  FAN:  &fan {kind: motor, draws: 20 A}   # the first
  FAN2: *fan
  FAN3: {name: third, <<: *fan}

circuits:
  c:
    legs:
      - &feed [BAT.+, F1]
      - *feed
      - [A, {to: "?"}]

measured: {FAN.+: 10.8 V @ driving, X2.4: "?"}

variants:
  towing: {with: [tow.yaml]}
  basic:  {without: [fog]}
`
	out, err := settle([]byte(text), true)
	require.NoError(t, err)
	require.Equal(t, want, string(out))
}

// TestCommentsGoWithTheirKeys: where keys change their order, each takes its comments along;
// the head of the file stays its head.
func TestCommentsGoWithTheirKeys(t *testing.T) {
	const text = `# Of the Kestrel GT
# in two lines

# the car's name
title: t   # as on the sheet
# the parts
parts: {G0: {kind: ground}, BAT: {kind: battery}}
system:
  # with the engine on
  running: 14.2 V   # measured
  # nominal
  volts: 12
circuits: {c: {legs: [[G0, BAT.-]], number: 1   # the first
  }}
loomfolio: 1   # format
# the end
`
	const want = `# Of the Kestrel GT
# in two lines

loomfolio: 1   # format
# the car's name
title: t   # as on the sheet

system:
  # nominal
  volts: 12
  # with the engine on
  running: 14.2 V   # measured

# the parts
parts:
  G0:  {kind: ground}
  BAT: {kind: battery}

circuits:
  c:
    number: 1   # the first
    legs:
      - [G0, BAT.-]
# the end
`
	require.Equal(t, want, tidied(t, text))
}

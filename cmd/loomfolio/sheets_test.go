package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/layout"
)

// TestFewSheets: a packet is as thick as a garage wants it, on A4.
func TestFewSheets(t *testing.T) {
	for sample, most := range map[string]int{"first": 15, "tender": 23, "camper": 53, "kestrel": 61} {
		require.LessOrEqual(t, len(planned(t, sample, layout.Archive, "").Sheets), most, sample)
	}
	require.LessOrEqual(t, len(planned(t, "kestrel", layout.Bench, "").Sheets), 48, "for the bench")
	require.LessOrEqual(t, len(planned(t, "kestrel", layout.Customer, "").Sheets), 38, "for the customer")
}

// oneFan is as little as anybody describes: one fan with its relay, switches and fuses.
const oneFan = `loomfolio: 1
title: Electric fan
vehicle: {name: Kestrel Sprint}
system:
  volts: 12
  earth: negative
places:
  battery: {name: Battery tray, zone: engine, tail: 150 mm}
  rad: {name: Radiator, zone: engine, tail: 150 mm}
  dash: {name: Dashboard, zone: cabin, tail: 200 mm}
runs:
  - {from: battery, to: rad, length: 900 mm}
  - {from: battery, to: dash, length: 1.2 m}
parts:
  BAT: {kind: battery, at: battery, capacity: 45 Ah}
  F1: {kind: fuse, at: battery, name: Fan fuse}
  F2: {kind: fuse, at: battery, name: Ignition fuse}

  K1: {kind: relay, at: battery, name: Fan relay, rating: 40 A}
  FAN: {kind: motor, at: rad, name: Fan 12 inch, draws: 18 A}
  TS: {kind: switch, at: rad, name: Thermostat switch 92 C, positions: {cold: [], hot: [[1, 2]]}}
  OV: {kind: switch, at: dash, name: Override switch, positions: {auto: [], on: [[1, 2]]}}
  IGN: {kind: ignition-switch, at: dash}
  G0: {kind: ground, at: battery, name: Battery earth}
  G1: {kind: ground, at: rad, name: Front earth}
  G2: {kind: ground, at: dash, name: Dash earth}
circuits:
  earth: {number: 2, name: Battery earth, legs: [[G0, BAT.-]]}
  fan:
    number: 1
    name: Cooling fan
    legs:
      - [BAT.+, {to: F1, length: 150 mm}, K1.30, K1.87, FAN, G1]
      - [BAT.+, {to: F2, length: 150 mm}, IGN.30]
      - [IGN.15, K1.86, K1.85, TS, G1]
      - [K1.85, OV, G2]
`

// TestOneFanIsAThinPacket: whoever wires one fan gets no book.
func TestOneFanIsAThinPacket(t *testing.T) {
	w, err := work.Do(work.Source{Name: "fan.yaml", Text: []byte(oneFan)})
	require.NoError(t, err)
	p, err := layout.Plan(w.Harness, w.Result, layout.Options{For: layout.Archive, FileName: "fan.yaml"})
	require.NoError(t, err)
	require.LessOrEqual(t, len(p.Sheets), 10)
}

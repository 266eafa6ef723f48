package kind

import "example.com/loomfolio/sizing/harness"

// charging are the kinds that make charge, or carry it. Terminals are those of DIN 72552
// and of the trade; which of them a box has is seen from the stops that name them.
var charging = []Row{
	{
		Kind: harness.Dynamo, Nicknames: "generator lichtmaschine",
		Keys: "output regulated field control", Needs: "output", Terminals: "D F case", Also: "D+=D DF=F 61~D WL~D E~case D-~case 31~case", Inside: "dynamo",
		Role: Supplies, Charges: true, List: "supply", Ends: []End{{"F", "receptacle", "6.3", "6.3"}, {"DF", "receptacle", "6.3", "6.3"}, {"61", "receptacle", "6.3", "6.3"}, {"*", "ring", "M5", "#10"}},
		Format: Format{"D F case, or D+ DF D-; E where it has one; with `control: built-in` B+ 61 case", "", "output * (A), regulated (V, charging), field (resistance), control (box, built-in)"},
	},
	{
		Kind: harness.ControlBox, Nicknames: "regulator cut-out cutout voltage-regulator",
		Keys: "setting coil", Terminals: "A D F E", Also: "B=A B+=A 51=A A1 D+=D DF=F 61~D WL~D D-=E 31=E", Inside: "control-box",
		Role: Supplies, List: "supply", Ends: []End{{"F", "receptacle", "6.3", "6.3"}, {"DF", "receptacle", "6.3", "6.3"}, {"61", "receptacle", "6.3", "6.3"}, {"WL", "receptacle", "6.3", "6.3"}, {"*", "ring", "M5", "#10"}},
		Format: Format{"A A1 D F E; or B (B+, 51) D (D+) WL (61) F (DF) E (D-, 31)", "", "setting (V on open circuit: written down, no charging voltage), coil"},
	},
	{
		Kind: harness.Stator, Nicknames: "magneto",
		Keys: "", Inside: "stator",
		Role: Supplies, List: "supply", Ends: cavity,
		Format: Format{"its leads, as stops name them", "", ""},
	},
	{
		Kind: harness.RectifierRegulator, Nicknames: "rectifier regulator-rectifier",
		Keys: "output regulated regulates", Needs: "output", Terminals: "+ -", Also: "B+=+ 51=+ BAT=+ B-=- 31=- E=- case=- AC1 AC2 AC3 U V W G1 G2 G3 ~1 ~2 ~3", Inside: "rectifier-regulator",
		Role: Supplies, Charges: true, List: "supply", Ends: cavity,
		Format: Format{"+ - and the stator's leads: AC1 AC2, a third AC3 of three phases (or U V W)", "", "output * (A), regulated (V), regulates (shunt, series)"},
	},
	{
		Kind: harness.SolarPanel, Nicknames: "solar pv",
		Keys: "power isc imp voc vmp", Needs: "power", Terminals: "+ -", Inside: "solar-panel",
		Role: Supplies, List: "supply", Ends: leads,
		Format: Format{"+ -", "", "power * (W), isc, imp (A), voc, vmp (V)"},
	},
	{
		Kind: harness.SolarRegulator, Nicknames: "solar-controller charge-controller mppt pwm",
		Keys: "output regulated tracking efficiency", Needs: "output", Terminals: "PV+ PV- B+ B-", Also: "BAT+=B+ +=B+ BAT-=B- -=B- P+=PV+ P-=PV- LOAD+ LOAD-", Inside: "solar-regulator",
		Role: Supplies, Charges: true, List: "supply", Ends: []End{{"*", "ferrule", "", ""}},
		Format: Format{"PV+ PV- B+ B-, LOAD+ LOAD-", "", "output * (A, its limit), regulated (V), tracking, efficiency (of one that tracks); its positions in a state: night, sun"},
	},
	{
		Kind: harness.ShoreCharger, Nicknames: "charger battery-charger",
		Keys: "output regulated", Needs: "output", Terminals: "+ -", Also: "B+=+ OUT+=+ B-=- OUT-=-", Inside: "shore-charger",
		Role: Supplies, Charges: true, List: "supply", Ends: []End{{"*", "ring", "M6", "1/4"}},
		Format: Format{"+ - (its low-voltage side only)", "", "output * (A), regulated (V); its positions in a state: unplugged, plugged"},
	},
	{
		Kind: harness.Inverter,
		Keys: "power efficiency standing works-above rating", Needs: "power", Terminals: "+ -", Inside: "inverter",
		Role: Works, Behaves: harness.AsPower, Class: Motors, List: "loads", Lug: true, Ends: []End{{"*", "ring", "M8", "5/16"}},
		Format: Format{"+ - (its low-voltage side only)", "", "power * (W that it gives), efficiency, standing (what it draws with nothing on it), works-above; its positions in a state: off, idle, on"},
	},
	{
		Kind: harness.Shunt,
		Keys: "value drop rating", Terminals: "1 2", Also: "S1~1 S2~2", Inside: "shunt", Through: true,
		Role: Joins, List: "others", Lug: true, Ends: []End{{"S1", "ring", "M4", "#8"}, {"S2", "ring", "M4", "#8"}, {"*", "ring", "M10", "3/8"}},
		Format: Format{"1 (battery) 2 (loads), S1 S2 (sense leads)", "1 to 2", "value (resistance), or drop (V) at rating (A)"},
	},
	{
		Kind: harness.BatteryMonitor, Nicknames: "monitor",
		Keys: "draws", Terminals: "B1 S1 S2", Also: "B2 B+=B1 +=B1 S+=S2 S-=S1", Inside: "battery-monitor",
		Role: Works, Behaves: harness.AsCurrent, List: "loads", Ends: []End{{"*", "receptacle", "2.8", "2.8"}},
		Format: Format{"B1 (feed) S1 S2 (to the shunt's), B2 (a second battery)", "", "draws"},
	},
	{
		Kind: harness.SplitCharge, Nicknames: "split-charger vsr isolating-relay",
		Keys: "coil cut-in cut-off senses rating", Terminals: "30 87 85", Also: "31=85 86 D+=86 61=86 15=86", Inside: "split-charge",
		Role: Switches, List: "relays", Ends: []End{{"85", "receptacle", "6.3", "6.3"}, {"31", "receptacle", "6.3", "6.3"}, {"86", "receptacle", "6.3", "6.3"}, {"D+", "receptacle", "6.3", "6.3"}, {"61", "receptacle", "6.3", "6.3"}, {"15", "receptacle", "6.3", "6.3"}, {"*", "ring", "M6", "1/4"}},
		Format: Format{"30 (charged battery) 87 (second battery) 85 (31); driven by D+: 86 (D+, 61) as well", "", "rating, cut-in, cut-off (V, without 86), senses (one, both), coil"},
	},
}

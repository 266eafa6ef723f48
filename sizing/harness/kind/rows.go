package kind

import "example.com/loomfolio/sizing/harness"

const loadKeys = "draws at-volts starts duty behaves works-above drop needs"

var (
	tab63  = []End{{"*", "receptacle", "6.3", "6.3"}}
	tab48  = []End{{"*", "receptacle", "4.8", "4.8"}}
	leads  = []End{{"*", "butt splice", "", ""}}
	cavity = []End{{"*", "contact", "", ""}}
)

var loadFormat = Format{"+ -", "+ to -", "draws * (A or W), at-volts, starts, duty, behaves, works-above, drop, needs"}

var firstRows = []Row{
	{
		Kind: harness.Battery,
		Keys: "capacity emf inner", Terminals: "+ -", Inside: "battery",
		Role: Supplies, List: "supply", Lug: true, Ends: []End{{"*", "ring", "M8", "5/16"}}, Unbodied: true,
		Format: Format{"+ -", "", "capacity, emf, inner (resistance)"},
	},
	{
		Kind: harness.Alternator,
		Keys: "output regulated", Needs: "output", Terminals: "B+ L case", Also: "D+=L 61=L S W", Inside: "alternator",
		Role: Supplies, Charges: true, List: "supply", Ends: []End{{"L", "receptacle", "6.3", "6.3"}, {"*", "ring", "M8", "5/16"}},
		Format: Format{"B+ L (D+, 61) case; S (sense) and W (tachometer) where stops name them", "", "output * (A), regulated (V)"},
	},
	{
		Kind: harness.DCConverter, Nicknames: "dc-dc dcdc dc/dc b2b voltage-converter",
		Keys: "output output-volts regulated efficiency standing works-above for isolated", Needs: "output", Terminals: "in+ in- out+ out- on", Inside: "converter",
		Role: Supplies, List: "supply", Ends: []End{{"on", "receptacle", "6.3", "6.3"}, {"*", "ring", "M6", "1/4"}},
		Format: Format{"in+ in- out+ out- on; or those of `terminals:`, such as [in, out, 31]", "", "output * (A or W that it gives at most), output-volts, efficiency, standing (draw with nothing loaded), works-above, for (supply, charger), isolated; with a wire on `on` (D+) it works while that is live"},
	},
	{
		Kind: harness.Starter,
		Keys: "draws solenoid at-volts works-above drop needs", Needs: "draws", Terminals: "30 50 case", Inside: "starter",
		Role: Works, Class: Motors, List: "loads", Lug: true, Ends: []End{{"50", "receptacle", "6.3", "6.3"}, {"*", "ring", "M8", "5/16"}},
		Format: Format{"30 50 case, or `terminals: [30, case]` of an inertia starter, which turns while it is fed", "", "draws * (A while cranking), solenoid (A), drop, needs"},
	},
	{
		Kind: harness.Isolator, Nicknames: "kill-switch battery-switch cut-off",
		Keys: "positions rating", Terminals: "1 2", Inside: "isolator", Through: true,
		Role: Switches, List: "supply", Lug: true, Ends: []End{{"*", "ring", "M10", "3/8"}}, Unbodied: true,
		Format: Format{"1 2", "1 to 2", "positions (on, off; on is the rest position), rating"},
	},
	{
		Kind: harness.Fuse,
		Keys: "rating body holder", Terminals: "1 2", Inside: Link, Through: true,
		Role: Protects, List: "fuses", Ends: leads, Unbodied: true,
		Format: Format{"1 2", "1 to 2", "rating, body (mini, blade, maxi, bolt, glass), holder (A, or a body)"},
	},
	{
		Kind: harness.FusePanel, Nicknames: "fusebox fuse-box fuseblock panel",
		Keys: "body layout feeds fuses spare holder lid", Needs: "layout feeds", Inside: "fuse-panel",
		Role: Protects, List: "fuses", Ends: []End{{"feed", "ring", "M6", "1/4"}, {"*", "receptacle", "6.3", "6.3"}}, Unbodied: true,
		Format: Format{"each name under `feeds`, and each position", "", "body, layout, feeds * (name: positions), fuses (position: rating), spare, lid (size of the card in it)"},
	},
	{
		Kind: harness.Breaker, Nicknames: "circuit-breaker",
		Keys: "rating type", Terminals: "1 2", Inside: Link, Through: true,
		Role: Protects, List: "fuses", Ends: []End{{"*", "ring", "M5", "#10"}}, Unbodied: true,
		Format: Format{"1 2", "1 to 2", "rating, type (1 2 3, SAE J553)"},
	},
	{
		Kind: harness.Bus, Nicknames: "busbar stud",
		Keys: "studs", Inside: "bus", Through: true,
		Role: Supplies, List: "supply", Ends: []End{{"*", "ring", "M6", "1/4"}}, Unbodied: true,
		Format: Format{"those its stops name, all joined", "any", "studs, stud"},
	},
	{
		Kind: harness.Relay,
		Keys: "coil suppression rating changeover", Terminals: "30 85 86 87", Inside: "relay", Through: true,
		Role: Switches, List: "relays", Ends: tab63,
		Format: Format{"30 85 86 87, 87a with `changeover: true`", "", "coil (mA or ohm), suppression (none, resistor, diode: 86 is plus), rating"},
	},
	{
		Kind: harness.Flasher,
		Keys: "needs", Terminals: "49 49a 31", Inside: "flasher", Through: true,
		Role: Switches, List: "relays", Ends: tab63,
		Format: Format{"49 49a 31", "", "needs (A least load)"},
	},
	{
		Kind: harness.Switch, Nicknames: "button pushbutton",
		Keys: "positions momentary rating", Needs: "positions", Inside: "switch", Through: true,
		Role: Switches, List: "switches", Ends: tab63,
		Format: Format{"those named in `positions`", "where only two exist", "positions * (first is the rest position), momentary, rating"},
	},
	{
		Kind: harness.IgnitionSwitch, Nicknames: "key ignition",
		Keys: "positions rating", Terminals: "30 75 15 50", Inside: "ignition-switch", Through: true,
		Role: Switches, List: "switches", Ends: tab63,
		Format: Format{"30 75 15 50", "", "positions (off, accessory 30-75, run 30-75 30-15, start 30-15 30-50)"},
	},
	{
		Kind: harness.Motor, Nicknames: "fan pump",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsMotor, Class: Motors, List: "loads", Ends: leads, Format: loadFormat,
	},
	{
		Kind: harness.Lamp, Nicknames: "light bulb led",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsLamp, Class: Lamps, List: "loads", Ends: tab63, Format: loadFormat,
	},
	{
		Kind: harness.Heater, Nicknames: "element",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsResistance, List: "loads", Ends: tab63, Format: loadFormat,
	},
	{
		Kind: harness.Coil, Nicknames: "injector",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsResistance, Class: Inductive, List: "loads", Ends: tab63, Format: loadFormat,
	},
	{
		Kind: harness.Solenoid, Nicknames: "valve",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsResistance, Class: Inductive, List: "loads", Ends: tab63, Format: loadFormat,
	},
	{
		Kind: harness.Horn, Nicknames: "buzzer",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsCurrent, Class: Inductive, List: "loads", Ends: tab63, Format: loadFormat,
	},
	{
		Kind: harness.Outlet, Nicknames: "socket",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsCurrent, List: "loads", Ends: tab63, Format: loadFormat,
	},
	{
		Kind: harness.Sender, Nicknames: "sensor",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsResistance, List: "loads", Ends: tab48, Format: loadFormat,
	},
	{
		Kind: harness.Gauge,
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true,
		Role: Works, Behaves: harness.AsResistance, List: "loads", Ends: tab48, Format: loadFormat,
	},
	{
		Kind: harness.Module, Nicknames: "radio ecu controller",
		Keys: "at-volts duty works-above layout drop needs", Needs: "inside", Through: true,
		Role: Works, Behaves: harness.AsCurrent, List: "loads", Ends: cavity,
		Format: Format{"those named in `inside`", "", "inside *, drop, needs, layout (rows of terminals, seen from the wire side of its plug; without it they are listed)"},
	},
	{
		Kind: harness.Diode,
		Keys: "drop", Terminals: "a k", Inside: "diode", Through: true,
		Role: Joins, List: "others", Ends: leads, Unbodied: true,
		Format: Format{"a k", "a to k", "drop"},
	},
	{
		Kind: harness.Resistor,
		Keys: "value", Terminals: "1 2", Inside: "resistor", Through: true,
		Role: Joins, List: "others", Ends: leads,
		Format: Format{"1 2", "1 to 2", "value; a strap's gauge and length"},
	},
	{
		Kind: harness.Capacitor, Nicknames: "condenser",
		Keys: "value", Terminals: "1 2", Inside: "capacitor", Through: true,
		Role: Joins, List: "others", Ends: leads,
		Format: Format{"1 2", "1 to 2", "value; a strap's gauge and length"},
	},
	{
		Kind: harness.Strap, Nicknames: "cable",
		Keys: "value gauge length", Terminals: "1 2", Inside: "strap", Through: true,
		Role: Joins, List: "others", Ends: []End{{"*", "ring", "M6", "1/4"}}, Unbodied: true,
		Format: Format{"1 2", "1 to 2", "value; a strap's gauge and length"},
	},
	{
		Kind: harness.Connector, Nicknames: "plug",
		Keys: "cavities layout sealed", Needs: "cavities", Inside: "connector",
		Role: Joins, List: "connectors", Ends: cavity, Unbodied: true,
		Format: Format{"cavities", "", "cavities * (number or names), layout (rows of cavities, seen from the wire side of the feed half; without it they are listed), family, sealed; `X1.4` passes through the mated pair"},
	},
	{
		Kind: harness.Splice, Nicknames: "joint",
		Keys: "along", Inside: "splice", Through: true,
		Role: Joins, List: "splices", Ends: []End{{"*", "splice barrel", "", ""}}, Unbodied: true,
		Format: Format{"one", "any", "at, or along: `{run: [a, b], distance: 300 mm}`"},
	},
	{
		Kind: harness.Ground, Nicknames: "earth chassis",
		Keys: "surface joint", Inside: "ground", Through: true,
		Role: Returns, List: "grounds", Ends: []End{{"*", "ring", "M6", "1/4"}}, Unbodied: true,
		Format: Format{"one, joined to the chassis", "any", "surface (bare, painted, coated), stud, joint (resistance)"},
	},
	{
		Kind: harness.Unknown, Nicknames: "box blackbox mystery",
		Keys: loadKeys, Inside: "unknown", Through: true,
		Role: Joins, Behaves: harness.AsCurrent, List: "unknown", Ends: tab63,
		Format: Format{"those its stops name, nothing between them", "any, from a wire of its own to another", "draws, inside, terminals as one learns them"},
	},
	{
		Kind: harness.OpenEnd, Nicknames: "loose-end",
		Inside: "open-end", Through: true,
		Role: Joins, List: "unknown", Ends: []End{{"*", "butt splice", "", ""}},
		Format: Format{"one, which leads nowhere as far as is known", "any", "a stop `?` makes one by itself: see As found"},
	},
}

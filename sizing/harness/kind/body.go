package kind

import "example.com/loomfolio/sizing/harness"

const filamentSays = "draws (each in its order, as printed: 60/55 W, 21/5 W), at-volts, behaves; a filament without a wire is not there"

// load, contact and others write the pieces of the recipes.
func load(from, to, take string, behaves harness.Behaviour) Piece {
	return Piece{Is: harness.Load, From: from, To: to, Take: take, Behaves: behaves}
}

func contact(from, to, in string) Piece {
	return Piece{Is: harness.Contact, From: from, To: to, In: in}
}

// spare is a load that is not there where no wire feeds it, with the words of its circuit.
func spare(p Piece, words string) Piece {
	p.Spare, p.Words = true, words
	return p
}

// bodyRows are the kinds of the body and the engine. Terminals by DIN 72552, from memory
// where the table of its terminals has them not; those of others are the trade's.
var bodyRows = []Row{
	{
		Kind: harness.Wiper, Nicknames: "wiper-motor", Like: harness.Motor,
		Keys: loadKeys, Terminals: "53 53b 53a 53e 31",
		Recipe: &Recipe{Positions: "parked turning", Moves: WhenFed, Pieces: []Piece{
			load("53", "31", "53", harness.AsMotor),
			spare(load("53b", "31", "53b", harness.AsMotor), ""),
			spare(load("53a", "31b", "53a", harness.AsMotor), ""), // the one with two wires
			contact("53e", "31", "parked"), contact("53e", "53a", "turning"), contact("31b", "31", "turning"),
		}},
		Role: Works, Behaves: harness.AsMotor, Class: Motors, List: "loads", Ends: tab63,
		Format: Format{"53 53b 53a 53e 31, or `terminals: [53a, 31b, 31]` of one that parks itself with two wires", "",
			"draws (slow/fast: 4/8 A), at-volts, starts, duty, behaves, works-above; positions parked (53e-31, rest) and turning (53e-53a, 31b-31), by itself turning while it is fed"},
	},
	{
		Kind: harness.Headlamp, Nicknames: "two-filament", Like: harness.Lamp,
		Keys: loadKeys, Terminals: "56a 56b 31",
		Recipe: &Recipe{Pieces: []Piece{
			spare(load("56a", "31", "56a", harness.AsLamp), "main high full beam"),
			spare(load("56b", "31", "56b", harness.AsLamp), "dip dipped low passing"),
		}},
		Role: Works, Behaves: harness.AsLamp, Class: Lamps, List: "loads", Ends: tab63,
		Format: Format{"56a (main) 56b (dip) 31", "", filamentSays},
	},
	{
		Kind: harness.StopTail, Nicknames: "brake-tail tail-stop", Like: harness.Lamp,
		Keys: loadKeys, Terminals: "54 58 31",
		Recipe: &Recipe{Pieces: []Piece{
			spare(load("54", "31", "54", harness.AsLamp), "stop brake"),
			spare(load("58", "31", "58", harness.AsLamp), "tail side sidelight parking marker lights position"),
		}},
		Role: Works, Behaves: harness.AsLamp, Class: Lamps, List: "loads", Ends: tab63,
		Format: Format{"54 (stop) 58 (tail) 31", "", filamentSays},
	},
	{
		Kind: harness.Trafficator, Nicknames: "semaphore semaphore-indicator", Like: harness.Solenoid,
		Keys: loadKeys, Terminals: "+ -", Through: true,
		Recipe: &Recipe{Pieces: []Piece{load("+", "-", "arm", harness.AsResistance), load("+", "-", "lamp", harness.AsLamp)}},
		Role:   Works, Behaves: harness.AsResistance, Class: Inductive, List: "loads", Ends: leads,
		Format: Format{"+ -", "+ to -", "draws (arm/lamp: 2/0.25 A), at-volts, starts, duty"},
	},
	{
		Kind: harness.WindowMotor, Nicknames: "electric-window window two-way-motor actuator", Like: harness.Motor,
		Keys: loadKeys, Terminals: "1 2", Through: true,
		Recipe: &Recipe{EitherWay: true, Pieces: []Piece{load("1", "2", "motor", harness.AsMotor)}},
		Role:   Works, Behaves: harness.AsMotor, Class: Motors, List: "loads", Ends: leads,
		Format: Format{"1 2", "1 to 2", "draws, at-volts, starts (stalled), duty, behaves, works-above; turned either way, at rest both to ground"},
	},
	{
		Kind: harness.LockMotor, Nicknames: "central-locking door-lock", Like: harness.Motor,
		Keys: loadKeys, Terminals: "1 2", Through: true,
		Recipe: &Recipe{EitherWay: true, Pieces: []Piece{load("1", "2", "motor", harness.AsMotor)}},
		Role:   Works, Behaves: harness.AsMotor, Class: Motors, List: "loads", Ends: leads,
		Format: Format{"1 2", "1 to 2", "draws, at-volts, starts (stalled), duty, behaves, works-above; turned either way, at rest both to ground"},
	},
	{
		Kind: harness.Thermostat, Nicknames: "thermo-switch fan-switch", Like: harness.Switch,
		Keys: "closes rating", Terminals: "1 2", Through: true,
		Recipe: &Recipe{Positions: "cold hot", Pieces: []Piece{contact("1", "2", "hot")}},
		Role:   Switches, List: "switches", Ends: tab63,
		Format: Format{"1 2, or `terminals: [1]` where its thread is the other", "1 to 2", "closes (hot, cold; hot unless given), rating; positions cold (rest), hot"},
	},
	{
		Kind: harness.PressureSwitch, Nicknames: "oil-switch pressure-sender", Like: harness.Switch,
		Keys: "closes rating", Terminals: "1 2", Through: true,
		Recipe: &Recipe{Positions: "low high", Pieces: []Piece{contact("1", "2", "low")}},
		Role:   Switches, List: "switches", Ends: tab63,
		Format: Format{"1 2, or `terminals: [1]` where its thread is the other", "1 to 2", "closes (low, high; low, as for an oil warning lamp, unless given), rating; positions low (rest), high"},
	},
	{
		Kind: harness.Reed, Nicknames: "reed-switch reed-sensor", Like: harness.Switch,
		Keys: "rating", Terminals: "1 2", Through: true,
		Recipe: &Recipe{Positions: "away near", Pieces: []Piece{{Is: harness.Contact, From: "1", To: "2", In: "near", Take: "contact"}}},
		Role:   Switches, List: "switches", Ends: tab48,
		Format: Format{"1 2", "1 to 2", "rating (0.5 A unless given); positions away (rest), near the magnet"},
	},
	{
		Kind: harness.Hall, Nicknames: "hall hall-sender", Like: harness.Switch,
		Keys: "draws at-volts works-above rating", Terminals: "+ - out",
		Recipe: &Recipe{Positions: "away near", Pieces: []Piece{
			load("+", "-", "supply", harness.AsCurrent),
			{Is: harness.Contact, From: "out", To: "-", In: "near", Take: "output"},
		}, Asks: []Ask{
			{"+", "a Hall sensor needs a supply: without one its output never moves"},
			{"-", "a Hall sensor needs its ground: without one its output never moves"},
		}},
		Role: Switches, List: "switches", Ends: cavity,
		Format: Format{"+ - out", "", "draws (its own), rating (of its output, 20 mA unless given); positions away (rest), near: out is joined to -, an open collector that needs a pull-up"},
	},
	{
		Kind: harness.IgnitionCoil, Nicknames: "spark-coil", Like: harness.Coil,
		Keys: loadKeys + " ballast", Terminals: "15 1",
		Recipe: &Recipe{Pieces: []Piece{
			{Is: harness.Load, From: "15", To: "1", Take: "15", Behaves: harness.AsResistance, Pulses: true, With: "!ballast"},
			{Is: harness.Load, From: "15a", To: "1", Take: "15a", Behaves: harness.AsResistance, Pulses: true, With: "ballast"},
			{Is: harness.Resistance, From: "15", To: "15a", Take: "15a", Pulses: true, With: "ballast"},
		}},
		Through: true,
		Role:    Works, Behaves: harness.AsResistance, Class: Inductive, List: "loads", Ends: tab63,
		Format: Format{"15 1, and 15a with `ballast:`", "15 to 1",
			"draws (with the points closed), ballast (ohm, from 15 to 15a: fed at 15a while cranking), duty (the dwell: 65 %), at-volts"},
	},
	{
		Kind: harness.Points, Nicknames: "contact-breaker distributor", Like: harness.Switch,
		Keys: "rating", Terminals: "1 31", Through: true,
		Recipe: &Recipe{Positions: "closed open", Pieces: []Piece{contact("1", "31", "closed"), {Is: harness.Open, From: "1", To: "31"}}},
		Role:   Switches, List: "switches", Ends: tab63,
		Format: Format{"1 31, or `terminals: [1]` where the distributor's body is the other", "1 to 31", "rating; positions closed (rest), open; its condenser is in it"},
	},
	{
		Kind: harness.CDI, Nicknames: "capacitor-discharge",
		Keys: loadKeys, Needs: "draws", Terminals: "+ -", Inside: Load, Through: true, Like: harness.Coil,
		Role: Works, Behaves: harness.AsCurrent, Class: Inductive, List: "loads", Ends: cavity,
		Format: Format{"+ -", "+ to -", "draws * (6 to 40 A by make: only its maker knows), at-volts, starts, duty, behaves, works-above"},
	},
	{
		Kind: harness.GlowPlugs, Nicknames: "glow-plug heater-plugs", Like: harness.Heater,
		Keys: loadKeys + " plugs", Terminals: "+ -", Through: true,
		Recipe: &Recipe{Pieces: []Piece{{Is: harness.Load, From: "+", To: "-", Take: "plug", Behaves: harness.AsResistance, Times: true}}},
		Role:   Works, Behaves: harness.AsResistance, Class: Resistive, List: "loads", Ends: []End{{"*", "ring", "M5", "#10"}},
		Format: Format{"+ -", "+ to -", "plugs (so many in one), draws (of each, warm), at-volts (what they are made for: 7, 11 or 12 V), starts (of each), duty"},
	},
	{
		Kind: harness.GlowTimer, Nicknames: "glow-relay glow-control", Like: harness.Relay,
		Keys: "rating", Terminals: "30 15 50 G1 L 31",
		Recipe: &Recipe{Positions: "off glowing", Moves: Pulsed, Pieces: []Piece{
			contact("30", "G1", "glowing"), contact("L", "31", "glowing"), load("15", "31", "own", harness.AsCurrent),
		}, Asks: []Ask{{"15", "lead 15 of the key to it: it starts to glow when the key is turned"}, {"31", "it needs its ground wire"}}},
		Role: Switches, List: "relays", Ends: tab63,
		Format: Format{"30 15 50 G1 (plugs) L (lamp) 31", "", "rating; positions off (rest), glowing (30-G1, L-31)"},
	},
	{
		Kind: harness.ElectronicFlasher, Nicknames: "flasher-electronic led-flasher", Like: harness.Flasher,
		Keys: "needs draws rating", Terminals: "49 49a C 31",
		Recipe: &Recipe{Pieces: []Piece{
			contact("49", "49a", ""), contact("49", "C", ""), load("49", "31", "own", harness.AsCurrent),
		}, Asks: []Ask{{"31", "a flasher with two pins has no 31: an electronic one does not flash without its ground wire; lay one"}}},
		Role: Switches, List: "relays", Ends: tab63,
		Format: Format{"49 49a C (pilot lamp) 31", "", "needs (A least load, none unless printed), draws (its own), rating"},
	},
	{
		Kind: harness.LatchingRelay, Nicknames: "bistable-relay impulse-relay", Like: harness.Relay,
		Keys: "coil rating changeover", Terminals: "30 87 S R 31",
		Recipe: &Recipe{Positions: "reset set", Pieces: []Piece{
			contact("30", "87", "set"), {Is: harness.Contact, From: "30", To: "87a", In: "reset", With: "changeover"},
			{Is: harness.RelayCoil, From: "S", To: "31", Take: "coil"}, {Is: harness.RelayCoil, From: "R", To: "31", Take: "coil"}, {Is: harness.RelayCoil, From: "T", To: "31", Take: "coil"},
		}},
		Role: Switches, List: "relays", Ends: tab63,
		Format: Format{"30 87 S (set) R (reset) 31, 87a with `changeover: true`; `terminals: [30, 87, T, 31]` of one that each pulse toggles", "", "coil (mA or ohm), rating; positions reset (rest), set (30-87): it stays where the last pulse put it"},
	},
	{
		Kind: harness.Timer, Nicknames: "time-relay delay-relay delay", Like: harness.Relay,
		Keys: "draws rating", Terminals: "30 87 15 31",
		Recipe: &Recipe{Positions: "open closed", Pieces: []Piece{
			contact("30", "87", "closed"), load("15", "31", "own", harness.AsCurrent),
		}, Asks: []Ask{{"31", "it needs its ground wire"}}},
		Role: Switches, List: "relays", Ends: tab63,
		Format: Format{"30 87 15 (its supply, what starts it) 31", "", "draws (its own), rating; positions open (rest), closed (30-87)"},
	},
	{
		Kind: harness.Stabiliser, Nicknames: "stabilizer voltage-stabiliser gauge-regulator",
		Keys: "regulated draws", Terminals: "B I E",
		Recipe: &Recipe{Pieces: []Piece{
			{Is: harness.Contact, From: "B", To: "I", Keeps: "E"}, load("I", "E", "own", harness.AsResistance),
		}, Asks: []Ask{{"E", "its case must be grounded: without that its bimetal never opens, and the gauges read full"}}},
		Role: Switches, List: "relays", Ends: tab63,
		Format: Format{"B (feed) I (gauges) E (case)", "", "regulated (the mean voltage at I above E: 10 V unless given), draws (its own)"},
	},
	{
		Kind: harness.TrailerSocket, Nicknames: "towing-socket trailer-plug tow-socket",
		Keys: "type", Needs: "type", Inside: "trailer-socket", Recipe: &Recipe{Positions: "alone towing"}, Like: harness.Outlet,
		Role: Works, Behaves: harness.AsLamp, Class: Lamps, List: "loads", Ends: cavity,
		Format: Format{"the contacts by number", "", "type * (iso-1724 12N, iso-3732 12S, iso-11446 13-pin, iso-1185 24N, sae-j560); a trailer's usual lamps hang on it; positions alone (rest), towing; a contact without a wire is not used"},
	},
}

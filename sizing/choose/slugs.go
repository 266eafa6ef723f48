package choose

// Slugs says in one line what each finding of this package means.
var slugs = [...][2]string{
	{"unprotected-feed", "a wire hangs on a source with no fuse within 7 in (40 in when sheathed) of it"},
	{"unfused-cranking-cable", "the cable from battery to starter has no fuse, as is usual: keep it short, clamped and covered"},
	{"fuse-too-big", "a given fuse carries more for ever than a wire behind it stands"},
	{"fuse-too-small", "a fuse opens under the load's current, or may open while it starts"},
	{"parallel-fuses", "two fuses lie side by side between one feed and one load"},
	{"fed-from-two-fuses", "two fuses feed one piece of metal from two sides: with one out it is still live"},
	{"breaker-cycles-unfused", "a breaker that closes by itself has no fuse before it"},
	{"holder-too-small", "a fuse is rated for more than its holder carries"},
	{"short-may-not-open", "a dead short at the far end draws less than three times the fuse's rating"},
	{"short-too-slow", "in a dead short the wire passes its short-circuit temperature before the fuse opens"},
	{"drop-over-limit", "a load loses more voltage in its conductors than its class allows, and no size is enough"},
	{"gauge-given-too-thin", "a given gauge is thinner than heat, fuse or drop ask for"},
	{"wire-too-hot", "no size of the wire carries its current where it lies"},
	{"wire-too-weak-for-fuse", "no size of the wire stands the rating of its fuse"},
	{"contact-overloaded", "a switch or relay contact carries more than its rating"},
	{"load-never-on", "no state turns a load on"},
	{"floating-load", "metal joins a load to no ground, whatever the switches do"},
	{"unfed-load", "metal joins a load to no source, whatever the switches do"},
	{"relay-chatter", "a relay pulls in and lets go without end"},
	{"diode-relay-backwards", "a relay with a diode across its coil is fed on 85"},
	{"relay-will-not-pull-in", "a state calls for a relay, and its coil gets less than its pull-in voltage"},
	{"relay-sides-swapped", "a switch carries the current of a relay's contacts, or a load gets its current through the coil"},
	{"short-circuit", "in a state the current of a source comes back through no load"},
	{"open-contact-live", "a relay's break terminal has no wire and is live whenever the coil is off"},
	{"gauge-on-shared-ground", "the ground of a gauge or sender moves with other loads by more than 0.1 V"},
	{"contact-never-closed", "no state closes a switch's contact"},
	{"isolator-does-not-kill", "with an isolator open and the engine running, all that the key feeds stays on"},
	{"alternator-overloaded", "the loads of a running state take more than the alternator gives"},
	{"key-off-drain", "with everything at rest the battery loses more than 50 mA"},
}

// Slugs lists the findings of this package with one line on each, in a fixed order.
func Slugs() [][2]string { return slugs[:] }

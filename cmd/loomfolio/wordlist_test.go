package main

import "regexp"

// bad is a word or phrase that a native of the trade stumbles over, and what is said instead.
type bad struct{ is, say string }

// badWords must not come back in any text that a reader sees. The patterns are read
// without regard to case.
var badWords = []bad{
	// one word for one thing
	{`\bfor ever\b|\bforever\b`, "continuously"},
	{`\bwant(?:s|ed)?\b`, "needs"},
	{`\bstands? (?:a rating|up to|\d)|insulation stands|ratings? that it stands`, "is rated; is safe behind"},
	{`\b(?:un)?earth(?:s|ed|ing)?\b`, "ground"},
	{`\bharness(?:es)?\b`, "loom"},
	{`\bshrink\b`, "heat-shrink"},
	{`\bnail board`, "loom board"},
	{`\b(?:boots? (?:one )?(?:at )?each end|boots? on both ends)`, "heat-shrink over each end"},
	{`(?:^|[\s(:;])1 (?:accessories|advisories|batteries|boots|breakers|cables|cavities|circuits|clamps|colours|connectors|cores|days|ends|errors|findings|fuses|grommets|grounds|labels|lamps|legs|lengths|lines|loads|lugs|motors|pages|parts|pieces|places|positions|reels|relays|rings|rows|runs|seals|sheets|splices|states|studs|switches|terminals|tests|ties|twists|warnings|ways|wires)\b`, "1 fuse"},
	{`\b(?:colors?|colored|gray|center(?:s|ed)?|aluminum|molded|fibers?|analog|labeled|millimeters?|labors?|license)\b`, "UK spelling"},
	{`\breceptacles?\b`, "6.3 mm female spade"},
	{`\b(?:bare|closed) barrel`, "uninsulated barrel"},
	{`\bdual wall`, "adhesive-lined"},
	{`\bno way\b|\bway asks for|\bshorter than way`, "route"},
	{`\bway back\b`, "return"},
	{`\bmachines?\b`, "starter and alternator"},

	// messages and reasons
	{`\btake (?:a|an|one|the next|labels|the insulation) (?:relay|cable|type|strap|contact|holder|fuse|bus|stud|of which|from)`, "use, choose"},
	{`\b(?:lead|led) (?:it|this wire|the wire|the hold) (?:through|beside|another)`, "route it"},
	{`\bover a (?:relay|converter)\b`, "through a relay"},
	{`\bput a relay between`, "add a relay"},
	{`\bmetal joins\b`, "has no path to ground"},
	{`\bwithout end\b|\blets go\b`, "chatters"},
	{`\bchange (?:the )?(?:coil|two)[^.;:]* over\b`, "swap"},
	{`\bMF\d+ and MF\d+ lie side by side`, "are in parallel"},
	{`\ba fuse above the alternator`, "rated above"},
	{`\b(?:take the leg away|bridges the load)`, "remove the leg that bypasses the load"},
	{`\blook for a control cable`, "return through a control cable"},
	{`\bmay carry \d[\d.]* A at`, "is good for"},
	{`\bheat where it sits`, "ambient temperature there"},
	{`\bcold filaments' start`, "lamp inrush"},
	{`\bhalf empty\b`, "the drain is …; half flat in"},
	{`\bstraight across(?: and not through the loom)?`, "outside the loom"},
	{`\bbreaks no rule`, "also acceptable"},
	{`\blies (?:in red and in blue|between blue and yellow)|\bpull it to the force`, "both cover; falls between"},
	{`\bno tube of the tables`, "no listed heat-shrink fits"},
	{`" speaks of\b`, "mentions"},
	{`60 V is a high voltage`, "is outside the scope"},
	{`\bone colour by rule\b`, "must be the same colour"},
	{`\bsleeve their ends`, "fit number sleeves to both ends"},
	{`\b\d+ of advice\b`, "advisories"},
	{`\b(?:closes|reset) again by itself`, "automatic reset (type 1)"},
	{`\bfrom whichever end current\b|\bhalf where current (?:arrives|goes on)`, "feed half, load half"},
	{`\bbends? in use\b`, "flexes in use"},
	{`\b(?:input or the call|command line) cannot be used`, "bad input or command line"},
	{`\bchange asks for|\bdescription asks for`, "requires"},

	// sheets
	{`\bdescription inside the file\b`, "source file attached"},
	{`\bWork on which safety depends`, "Safety-related work must be done by a qualified person"},
	{`\bwhat the law asks`, "legal requirements override this packet"},
	{`\btakes current to do something`, "Loads"},
	{`\bJoins and returns`, "Joints and grounds"},
	{`\bmakes / changes over`, "make contact (NO) / changeover relay"},
	{`\bstays open while live`, "modified reset (type 2)"},
	{`\bcloses while pressed`, "push button, normally open"},
	{`\bjoined for good`, "splice (permanent)"},
	{`\bgoes on(?: at that sheet|, see the other)`, "continues on, continued on"},
	{`\bwhere a panel is fed`, "fuse panel feed"},
	{`\bat rest closed`, "normally closed"},
	{`\bUnits and short words`, "Units and terms"},
	{`\ba size in mm is something else`, "is a diameter, not an area"},
	{`\bCurrent of a wire\b`, "Current rating of a wire"},
	{`\bHandled as one\b|what is handled as one|\blonger by its turns`, "Twists, screens and cables"},
	{`\bsmallest of the size system`, "smallest size listed"},
	{`\bpractice in force`, "Design rules used"},
	{`(?-i:\bLift\b)`, "Ground offset"},
	{`(?-i:\bLost in wires|\bVolts at worst)`, "Voltage drop; Lowest voltage"},
	{`\bsum to nothing|\bleft over at the worst`, "currents balance at every node"},
	{`\bOf two in series`, "two in series are both counted"},
	{`\bcharging, not drawn`, "own charging system, not shown"},
	{`\bno discharge of its own`, "no self-discharge"},
	{`\bWhat a meter shows in state`, "Meter readings"},
	{`\bmore terminals? elsewhere`, "on other sheets"},
	{`⌀ of branches`, "branch widths at"},
	{`\bthe least to take`, "minimum"},
	{`\bBend, (?:least|long)`, "Min. bend radius / for long life"},
	{`\bsags? by\b`, "deflects no more than"},
	{`\bholds? the loom up`, "cable ties alone are not supports"},
	{`\bProve it on the board`, "Test on the board"},
	{`\bopen, but where the diagrams`, "open circuit, unless the diagrams show them joined"},
	{`\bPass the walls|\bThrough a wall`, "Pull through the bulkheads"},
	{`\bHousings off until`, "Fit housings afterwards"},
	{`\bhangs out as it comes`, "its tail is whatever the given length leaves"},
	{`\bwhatever the way\b`, "regardless of route"},
	{`\bwith their units below`, "with their twists and screens below"},
	{`\bCurrent is meant to flow`, "Current flows from A to B"},
	{`\bpeel its two`, "take its two markers"},
	{`\bnever fitted to the page`, "actual size"},
	{`\bFuses in a line\b`, "In-line fuses"},
	{`\bloses words from its end`, "is shortened from the end"},
	{`\blive, no fuse before it`, "stud live and unfused"},
	{`\d (?:mm|in) over all`, "outside diameter"},
	{`\bstiff with solder`, "tinned strands"},
	{`\bspare ones at least`, "at least two test crimps"},
	{`\bLeaves on the side|(?-i:; stays at [A-Z])`, "Leaves towards / ends at"},
	{`\bArea together`, "Total conductor area"},
	{`\btogether on one side so that`, "bring out together"},
	{`\bWhat joins in the loom`, "Joints in the loom"},
	{`\bweak eyes`, "colour blindness"},
	{`\bAlike most\b`, "Most alike"},
	{`\bdiffer 2\.5 times in copper`, "copper areas differ by 2.5 times or more"},
	{`\bAt most possible\b`, "Best possible"},
	{`\buse the number sleeve`, "go by the number sleeve"},
	{`(?-i:\bMost, A\b|\bRuns, A\b)`, "Max. fuse, A; Load, A"},
	{`\bThese stop when it is out|\bas a relay drops out`, "Lost if it blows; also lost through a relay"},
	{`\blook at what those loads`, "check what only those loads share"},
	{`\bFeed \S+ serves\b`, "supplies"},
	{`\blying flat in the drawing|\bpins where most makers`, "seen from the wire side, usual pin positions"},
	{`\bMake ready\b|\bReturns here\b`, "Prepare; Loads grounded here"},
	{`\blies on the bench|\blaid on by half|\bsprings back`, "Tick off; half-lapped; momentary"},
	{`\bon an insulated foot`, "insulated junction stud"},
	{`\bthousandths of a volt`, "millivolts"},

	// samples, README, FORMAT.md
	{`\bprobe heater|\bOutlet in the dash|\bFeed of probe|\bHead relay`, "Lambda sensor heater; Dash socket; Headlamp relay coils"},
	{`\blooking at the tank|\bthe sun still`, "checking the tank; solar keeps it charged"},
	{`\btab in the indent are errors`, "are reported as errors"},
	{`\bone person in a garage can wire the car from`, "from which one person can wire the car"},
}

// fine are texts in which a bad word is right: a term of another trade, a key, a command,
// the name of a finding, a word that the format reads. They are taken out before a text is
// looked at.
var fine = regexp.MustCompile(`(?im)positive earth|protective earth|heat-shrink\w*|\bshrink(?:: ?\d|: \{)|\bearth: ?(?:positive|negative|\{)?|` +
	`earth-lead-assumed|screen-unearthed|no-way(?:-through)?|shorter-than-way|fitting: receptacle|\bring, receptacle, contact\b|"wants|wants_a|qualified, licensed|(?:public|project|apache) license|receptacle \(with|nuts, shrink, cover|\x60earth\x60|\bshrink 1\.2 m\b|\x60receptacle\x60|/Predictor 15 /Colors 3|^end 2 wires 1 fuses`)

// badPatterns are the patterns of badWords, ready to be looked for.
func badPatterns() []*regexp.Regexp {
	var out []*regexp.Regexp
	for _, b := range badWords {
		out = append(out, regexp.MustCompile(`(?i)`+b.is))
	}
	return out
}

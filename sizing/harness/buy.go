package harness

// Tools lists the words for crimping tools that a shop may have.
func Tools() []string {
	return []string{"red-blue-yellow", "open-barrel", "lugs", "ferrules", "solder"}
}

// Operations lists the words for what is done while a loom is built.
func Operations() []string {
	return []string{"cut", "strip", "crimp", "contact", "lug", "marker", "splice", "lay", "tie", "cover", "test", "reel"}
}

// AsFew is what holds of what is bought where the description says nothing: few reels, and as
// many pairs on the number sleeve as goes with the number of wires.
func AsFew() Buy { return Buy{For: "few", Parts: -1, Runs: -1} }

// NearApart is which wires must look different where the description says nothing: in panels,
// plugs and modules those within two positions, in runs where it saves no reel (judgement, not published).
func NearApart() Apart { return Apart{Near: 2, Runs: "sleeve"} }

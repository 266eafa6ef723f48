package fitted

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/joint"
)

// TestToolOf: a contact is crimped with its maker's tool, all else that is rolled with one for open barrels.
func TestToolOf(t *testing.T) {
	for want, e := range map[string]End{
		"the contact's own tool": {Kind: joint.Contact, Crimp: "open barrel"},
		"open-barrel tool":       {Kind: joint.Receptacle, Crimp: "open barrel"},
		"ratchet tool, blue die": {Kind: joint.Ring, Crimp: "blue insulated"},
		"lug press":              {Kind: joint.Ring, Crimp: "uninsulated lug"},
		"mine":                   {Kind: joint.Receptacle, Crimp: "open barrel", Tool: "mine"},
	} {
		require.Equal(t, want, ToolOf(&e))
	}
}

package adversary

// classes lists all ways to break.
func classes() []class {
	return []class{
		{"load reversed", loadReversed}, {"lamp reversed", lampReversed}, {"module reversed", moduleReversed},
		{"diode reversed", diodeReversed}, {"gauge reversed", gaugeReversed}, {"battery reversed", batteryReversed},
		{"source reversed", sourceReversed}, {"relay diode reversed", relayDiodeReversed}, {"relay sides swapped", relaySidesSwapped},
		{"30 and 87 exchanged", commonExchanged}, {"87a without changeover", changeoverUnsaid}, {"relay chatters", relayChatters},
		{"coil in series", coilInSeries}, {"coil without ground", coilWithoutGround},
		{"feed thinned", feedThinned}, {"return thinned", returnThinned}, {"source return thinned", sourceReturnThinned},
		{"battery ground thinned", batteryGroundThinned}, {"regulator starved", regulatorStarved}, {"ground ring too thin a crimp", crimpMismatch},
		{"main fuse out", mainFuseOut}, {"charging fuse out", chargingFuseOut}, {"split fuse out", splitFuseOut}, {"branch fuse out", branchFuseOut},
		{"fuse too large", fuseTooLarge}, {"fuse oversized", fuseOversized}, {"fuse doubled", fuseDoubled}, {"fuse too small", fuseTooSmall},
		{"fuse in ground lead", fuseInGround}, {"holder too small", holderTooSmall}, {"blade at 48 V", bladeAt48}, {"inverter fuse too small", inverterFuse},
		{"feeder added", feederAdded}, {"series battery", seriesBattery}, {"half-volt lamp", halfVolts}, {"double-volt lamp", doubleVolts},
		{"state removed", stateRemoved}, {"ground removed", groundRemoved}, {"minus bar adrift", minusAdrift}, {"leisure minus adrift", leisureAdrift},
		{"ground not described", groundUnknown}, {"engine strap missing", engineStrap}, {"six rings on a stud", ringStack},
		{"isolator bypassed", isolatorBypassed}, {"isolator bridged", isolatorBridged}, {"key position lost", keyLost},
		{"fed round the switch", fedRound}, {"switch to ground", switchToGround}, {"lamps in series", lampsInSeries},
		{"flasher underloaded", flasherLow}, {"works-above underrun", worksAbove}, {"key unrated", keyUnrated},
		{"switch overloaded", switchOverloaded}, {"relay overloaded", relayOverloaded}, {"drain at rest", drainAtRest}, {"alternator too small", alternatorSmall},
		{"cavity twice", cavityTwice}, {"too hot a place", tooHot}, {"wire too short", tooShort}, {"airbag", airbag}, {"wire twice", wireTwice},
		{"switch bridged", switchBridged}, {"key positions joined", keyJoined}, {"starter on the run terminal", starterOnRun}, {"key fed at an outlet", keyTurned},
	}
}

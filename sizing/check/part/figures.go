package part

import "example.com/loomfolio/sizing/unit"

// GoodGround is a good bolted ground joint; FAA AC 43.13-1B 11-189 allows 0.003 ohm.
const GoodGround unit.Ohm = 0.001

// Figures that hold unless the description gives its own.
const (
	restPerVolt                = 12.6 / 12.0         // full lead-acid battery at rest, from memory; 12.66 V in a published rest-voltage table
	innerAh                    = 0.3 / 12.0          // ohm·Ah per volt: 5 milliohm for 12 V 60 Ah; common practice, no source
	alternatorR    unit.Ohm    = 0.005               // slope of a regulated alternator; common practice, no source
	contactR       unit.Ohm    = 0.002               // closed switch or relay contact; common practice, no source
	cavityR        unit.Ohm    = 0.003               // mated connector contact; common practice, no source
	linkR          unit.Ohm    = 0.005               // fuse or breaker before its rating is known; common practice, no source
	strapR         unit.Ohm    = 0.0005              // braided strap; common practice, no source
	coilWatts                  = 1.8                 // relay coil, 150 mA at 12 V; published relay data
	coilResistor   unit.Ohm    = 680                 // suppression resistor in a 12 V relay; from memory
	pullIn                     = 8.0 / 12.0          // of nominal; from memory
	dropOut                    = 1.2 / 12.0          // of nominal; from memory
	solenoidA      unit.Ampere = 10                  // starter solenoid while it holds; common practice, no source
	flasherA       unit.Ampere = 0.02                // electronic flasher's own draw; common practice, no source
	holderBodyR    unit.Ohm    = 0.02                // a lamp holder's shell on sheet metal; common practice, no source
	threadBodyR    unit.Ohm    = 0.02                // the thread of a sender or switch, with sealing compound; common practice, no source
	diodeDrop      unit.Volt   = 0.7                 // silicon diode; common practice
	diodeR         unit.Ohm    = 0.01                // its slope; common practice, no source
	lowShare                   = 10.5 / 12.0         // of nominal: the lowest voltage that a load of constant power works at; ISO 16750-2:2010 code D begins at 10.5 V, inverters stop at 10.0 to 10.5 V (common practice, no source)
	floorShare                 = 0.5                 // of nominal: below it a load takes current as a resistance
	converterShare             = unit.Fraction(0.88) // efficiency of a converter: 30 A at 14.4 V from 12.5 V then take 39 A, 1.3 times (common practice, no source); makers give 85 to 95 % (from memory)
	converterR     unit.Ohm    = 0.001               // slope of a regulated output; common practice, no source
	supplyVolts    unit.Volt   = 13.8                // of a 12 V supply from 24 V; common practice, no source
	chargerVolts   unit.Volt   = 14.4                // a charger's absorption voltage, 12 V lead-acid; common practice, no source
	standingA                  = 0.02                // A that a converter takes with nothing loaded; common practice, no source
	remoteA                    = 0.01                // A into its terminal D+ or on; common practice, no source
	chargedShare               = 13.0 / 12.0         // of nominal: a charger that nothing switches starts above it; common practice, no source
	switchedShare              = 1.0                 // of nominal: one that D+ switches works down to it, for alternators that lower their voltage; common practice, no source
)

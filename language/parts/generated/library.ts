/** The standard library of parts as text, by the address under which an editor opens it. Made by server/scripts/embed-parts.mjs from the .lug files of language/parts/. */
export const LIBRARY: Readonly<Record<string, string>> = {
  'lugwork:/parts/amplifiers.lug': `// The standard amplifier stages. A stage lives on the battery that stands across its plus and minus.

/** A buffer: high resistance in, low resistance out, no gain unless given. Values are common practice for one transistor or one half of an op-amp. */
type buffer : amplifier {
  lugs in out plus minus
  rows in out / minus plus
  takes input 1M, output 1k
  /** Voltage gain from input to output. */
  takes gain 1
  /** Current drawn from the battery. */
  takes current 1mA
  gain from in to out { gain gain, input input, output output, plus plus, minus minus, current current }
}

/** An operational amplifier: it amplifies the difference of its two inputs, very much, so what it does is decided by what leads from its output back to the
 *  inverting input. Values are common practice for one with a FET input, from memory; the gain-bandwidth is in its data sheet. */
type op-amp : amplifier {
  lugs noninverting inverting out plus minus
  rows inverting noninverting minus / plus out -
  takes gain-bandwidth 3MHz
  /** Current drawn from the battery. */
  takes current 2mA
  /** Amplification of a direct voltage, and what is between the inputs and behind the output. */
  takes gain 100000, input 1000M, output 100R
  gain from noninverting to out {
    inverting inverting, gain gain, gain-bandwidth gain-bandwidth
    input input, output output, plus plus, minus minus, current current
  }
}
`,
  'lugwork:/parts/connectors.lug': `// The standard connectors: a plug and its socket, which join two halves of an instrument. Contact n of half a meets contact n of
// half b. Which half is the plug is not said. Rows are the contacts of each half, seen from the solder side; common practice.

/** A connector with two contacts. With \`reversible\` it can also be mated the other way round: then 1a meets 2b. Common practice. */
type connector-2 : passive {
  lugs 1a 1b 2a 2b
  rows 1a 2a / 1b 2b
  /** Nothing keeps the plug from being put in the other way round. */
  takes reversible
  positions "as marked" reversed
  at "as marked" joins 1a 1b, 2a 2b
  at reversed where reversible joins 1a 2b, 2a 1b
  rest "as marked"
}

/** A connector with three contacts. With \`reversible\` it can also be mated the other way round: then 1a meets 3b. Common practice. */
type connector-3 : passive {
  lugs 1a 1b 2a 2b 3a 3b
  rows 1a 2a 3a / 1b 2b 3b
  /** Nothing keeps the plug from being put in the other way round. */
  takes reversible
  positions "as marked" reversed
  at "as marked" joins 1a 1b, 2a 2b, 3a 3b
  at reversed where reversible joins 1a 3b, 2a 2b, 3a 1b
  rest "as marked"
}

/** A connector with four contacts. With \`reversible\` it can also be mated the other way round: then 1a meets 4b. Common practice. */
type connector-4 : passive {
  lugs 1a 1b 2a 2b 3a 3b 4a 4b
  rows 1a 2a 3a 4a / 1b 2b 3b 4b
  /** Nothing keeps the plug from being put in the other way round. */
  takes reversible
  positions "as marked" reversed
  at "as marked" joins 1a 1b, 2a 2b, 3a 3b, 4a 4b
  at reversed where reversible joins 1a 4b, 2a 3b, 3a 2b, 4a 1b
  rest "as marked"
}

/** A connector with five contacts. With \`reversible\` it can also be mated the other way round: then 1a meets 5b. Common practice. */
type connector-5 : passive {
  lugs 1a 1b 2a 2b 3a 3b 4a 4b 5a 5b
  rows 1a 2a 3a 4a 5a / 1b 2b 3b 4b 5b
  /** Nothing keeps the plug from being put in the other way round. */
  takes reversible
  positions "as marked" reversed
  at "as marked" joins 1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b
  at reversed where reversible joins 1a 5b, 2a 4b, 3a 3b, 4a 2b, 5a 1b
  rest "as marked"
}

/** A connector with six contacts. With \`reversible\` it can also be mated the other way round: then 1a meets 6b. Common practice. */
type connector-6 : passive {
  lugs 1a 1b 2a 2b 3a 3b 4a 4b 5a 5b 6a 6b
  rows 1a 2a 3a 4a 5a 6a / 1b 2b 3b 4b 5b 6b
  /** Nothing keeps the plug from being put in the other way round. */
  takes reversible
  positions "as marked" reversed
  at "as marked" joins 1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b, 6a 6b
  at reversed where reversible joins 1a 6b, 2a 5b, 3a 4b, 4a 3b, 5a 2b, 6a 1b
  rest "as marked"
}

/** A connector with seven contacts. With \`reversible\` it can also be mated the other way round: then 1a meets 7b. Common practice. */
type connector-7 : passive {
  lugs 1a 1b 2a 2b 3a 3b 4a 4b 5a 5b 6a 6b 7a 7b
  rows 1a 2a 3a 4a 5a 6a 7a / 1b 2b 3b 4b 5b 6b 7b
  /** Nothing keeps the plug from being put in the other way round. */
  takes reversible
  positions "as marked" reversed
  at "as marked" joins 1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b, 6a 6b, 7a 7b
  at reversed where reversible joins 1a 7b, 2a 6b, 3a 5b, 4a 4b, 5a 3b, 6a 2b, 7a 1b
  rest "as marked"
}

/** A connector with eight contacts. With \`reversible\` it can also be mated the other way round: then 1a meets 8b. Common practice. */
type connector-8 : passive {
  lugs 1a 1b 2a 2b 3a 3b 4a 4b 5a 5b 6a 6b 7a 7b 8a 8b
  rows 1a 2a 3a 4a 5a 6a 7a 8a / 1b 2b 3b 4b 5b 6b 7b 8b
  /** Nothing keeps the plug from being put in the other way round. */
  takes reversible
  positions "as marked" reversed
  at "as marked" joins 1a 1b, 2a 2b, 3a 3b, 4a 4b, 5a 5b, 6a 6b, 7a 7b, 8a 8b
  at reversed where reversible joins 1a 8b, 2a 7b, 3a 6b, 4a 5b, 5a 4b, 6a 3b, 7a 2b, 8a 1b
  rest "as marked"
}
`,
  'lugwork:/parts/controls.lug': `// The standard pots. Common practice: shaft towards you and lugs down, 1 2 3 stand from left to right, 2 is the wiper, and
// turned up to 10 the wiper stands at lug 3. Rows are seen from the solder side, so mirrored.
// Audio taper: the exponential law of the MathWorks "Potentiometer" block reference, 15 % at mid rotation (from memory, for a pot
// marked 15A). Tolerance of 20 %: a rotary pot's data sheet.

/** A pot: a track from lug 1 to lug 3 with its wiper on 2. */
type pot : control {
  lugs 1 2 3 case
  metal case
  rows 3 2 1
  takes resistance 250k
  /** A law, or measured points in quotes, "0 0%, 5 15%, 10 100%": rotation and share of the track's resistance from lug 1. */
  takes taper linear|audio|reverse-audio
  takes turn right|left, tolerance 20%
  /** Default rotation, 0 to 10. */
  takes rest 10
  /** Share of the track's resistance from lug 1 at mid rotation, for the audio tapers. */
  takes mid 15%
  /** Resistance left at each end of the travel. */
  takes end 0R
  track from 1 to 3 wiper 2 { resistance resistance, taper taper, mid mid, end end }
}

/** A pot whose wiper leaves the track at 10 and then contacts only lug 3; below 10 lug 3 is open. Common practice for a tone control that goes out of circuit. */
type pot-no-load : pot {
  track from 1 to 3 wiper 2 { resistance resistance, taper taper, mid mid, end end, leaves 3 }
}

/** A pot with a two-pole push-pull switch. Common practice: pushed down, the commons connect to A1 and B1; pulled up, to A2 and B2. */
type pot-push-pull : pot {
  lugs A0 A1 A2 B0 B1 B2
  rows A1 B1 / A0 B0 / A2 B2 / - - / 3 2 1
  positions down up
  at down joins A0 A1, B0 B1
  at up joins A0 A2, B0 B2
}

/** A pot with a two-pole push-push switch: a push brings it up, the next one down. Common practice: down, the commons connect to A1 and B1; up, to A2 and B2. */
type pot-push-push : pot-push-pull {
}

/** Two tracks on one shaft. The second track is the same as the first unless it has its own value. */
type pot-dual : control {
  lugs 1a 2a 3a 1b 2b 3b case
  metal case
  rows 3a 2a 1a / 3b 2b 1b
  takes resistance 250k
  /** A law, or measured points in quotes, "0 0%, 5 15%, 10 100%": rotation and share of the track's resistance from lug 1. */
  takes taper linear|audio|reverse-audio
  takes turn right|left, tolerance 20%
  takes resistance-b resistance, taper-b taper
  /** Default rotation, 0 to 10. */
  takes rest 10
  /** Share of the track's resistance from lug 1 at mid rotation, for the audio tapers. */
  takes mid 15%
  /** Resistance left at each end of the travel. */
  takes end 0R
  track a from 1a to 3a wiper 2a { resistance resistance, taper taper, mid mid, end end }
  track b from 1b to 3b wiper 2b { resistance resistance-b, taper taper-b, mid mid, end end }
}

/** Two pots on one bushing, one shaft inside the other: shaft a turns track a, shaft b track b. */
type pot-concentric : pot-dual {
  track a from 1a to 3a wiper 2a { resistance resistance, taper taper, mid mid, end end, shaft a }
  track b from 1b to 3b wiper 2b { resistance resistance-b, taper taper-b, mid mid, end end, shaft b }
}

/** A blend: at the middle both tracks are full up; track a falls towards 0, track b towards 10. Common practice; rests in the middle. */
type pot-blend : pot-dual {
  takes rest 5
  track a from 1a to 3a wiper 2a { resistance resistance, taper taper, mid mid, end end, empty 0, full 5 }
  track b from 1b to 3b wiper 2b { resistance resistance-b, taper taper-b, mid mid, end end, empty 10, full 5 }
}

/** A preset pot, turned with a screwdriver and left so: no control of the player. Common practice: as on a pot, the wiper is on 2 and is at lug 3 at 10; meter yours. */
type trimmer : control {
  lugs 1 2 3
  rows 3 2 1
  takes resistance 100k
  /** A law, or measured points in quotes, "0 0%, 5 15%, 10 100%": rotation and share of the track's resistance from lug 1. */
  takes taper linear|audio|reverse-audio
  takes turn right|left, tolerance 20%
  /** Where it is set, 0 to 10. */
  takes rest 10
  /** Share of the track's resistance from lug 1 at mid rotation, for the audio tapers. */
  takes mid 15%
  /** Resistance left at each end of the travel. */
  takes end 0R
  track from 1 to 3 wiper 2 { resistance resistance, taper taper, mid mid, end end }
}
`,
  'lugwork:/parts/jacks.lug': `// The standard jacks. Tip is the signal, sleeve the return; a mono plug joins the ring of a three-contact jack to the sleeve
// (published: tip and sleeve; common practice: the use). The sleeve of an open jack is its bushing, so it is metal that touches
// the plate it stands in, unless the jack is boxed.

/** An output jack with two contacts. */
type jack : passive {
  lugs tip sleeve
  metal sleeve
  rows tip sleeve
  /** The jack is a closed box: its bushing is not its sleeve. */
  takes boxed
  /** Length of the threaded bushing, from the face that rests against the plate. */
  takes bush
}

/** An output jack with three contacts. At rest a mono plug is in it and connects the ring to the sleeve: the usual battery switch. */
type jack-stereo : jack {
  lugs ring
  rows tip ring sleeve
  positions empty mono stereo
  at mono joins ring sleeve
  rest mono
}

/** An output jack whose tip connects to another contact while no plug is in it. */
type jack-switched : jack {
  lugs tip-switch
  rows tip tip-switch sleeve
  positions empty plugged
  at empty joins tip tip-switch
  rest plugged
}
`,
  'lugwork:/parts/levers.lug': `// The standard lever switches. The common of a pole is its lug 0, the throws are numbered from 1. Rows are seen from the solder
// side and are common practice; makers differ, so look at the switch in hand.

/** A lever with three positions and two poles. Each common goes to the throw of the position. Source: D. Eddie, "3-ways and 5-ways". */
type lever-3 : switch {
  lugs A0 A1 A2 A3 B0 B1 B2 B3 frame
  metal frame
  rows A1 A2 A3 A0 / B0 B1 B2 B3
  positions 1 2 3
  at 1 joins A0 A1, B0 B1
  at 2 joins A0 A2, B0 B2
  at 3 joins A0 A3, B0 B3
}

/** A lever with four positions and two poles. Each common goes to the throw of the position. Common practice. */
type lever-4 : switch {
  lugs A0 A1 A2 A3 A4 B0 B1 B2 B3 B4 frame
  metal frame
  rows A1 A2 A3 A4 A0 / B0 B1 B2 B3 B4
  positions 1 2 3 4
  at 1 joins A0 A1, B0 B1
  at 2 joins A0 A2, B0 B2
  at 3 joins A0 A3, B0 B3
  at 4 joins A0 A4, B0 B4
}

/** A lever with five positions on three throws and two poles. In between two throws the common joins both. Common practice. */
type lever-5 : switch {
  lugs A0 A1 A2 A3 B0 B1 B2 B3 frame
  metal frame
  rows A1 A2 A3 A0 / B0 B1 B2 B3
  positions 1 2 3 4 5
  at 1 joins A0 A1, B0 B1
  at 2 joins A0 A1 A2, B0 B1 B2
  at 3 joins A0 A2, B0 B2
  at 4 joins A0 A2 A3, B0 B2 B3
  at 5 joins A0 A3, B0 B3
}

/** A lever with six positions and two poles. Each common goes to the throw of the position. Common practice. */
type lever-6 : switch {
  lugs A0 A1 A2 A3 A4 A5 A6 B0 B1 B2 B3 B4 B5 B6 frame
  metal frame
  rows A1 A2 A3 A4 A5 A6 A0 / B0 B1 B2 B3 B4 B5 B6
  positions 1 2 3 4 5 6
  at 1 joins A0 A1, B0 B1
  at 2 joins A0 A2, B0 B2
  at 3 joins A0 A3, B0 B3
  at 4 joins A0 A4, B0 B4
  at 5 joins A0 A5, B0 B5
  at 6 joins A0 A6, B0 B6
}

/** A lever with five positions and four poles, each with five separate throws. Common practice. */
type lever-5x4 : switch {
  lugs A0 A1 A2 A3 A4 A5 B0 B1 B2 B3 B4 B5
  lugs C0 C1 C2 C3 C4 C5 D0 D1 D2 D3 D4 D5 frame
  metal frame
  rows A0 A1 A2 A3 A4 A5 / B5 B4 B3 B2 B1 B0 / C0 C1 C2 C3 C4 C5 / D5 D4 D3 D2 D1 D0
  positions 1 2 3 4 5
  at 1 joins A0 A1, B0 B1, C0 C1, D0 D1
  at 2 joins A0 A2, B0 B2, C0 C2, D0 D2
  at 3 joins A0 A3, B0 B3, C0 C3, D0 D3
  at 4 joins A0 A4, B0 B4, C0 C4, D0 D4
  at 5 joins A0 A5, B0 B5, C0 C5, D0 D5
}
`,
  'lugwork:/parts/metals.lug': `// The standard metal things that belong on ground.

/** The ground wire under the bridge: the strings and the bridge, and the hand that touches them. */
type bridge-ground : metal {
  lugs strings
  metal strings
  rows strings
}

/** The common ground point: a lug or ring on which every ground wire ends. */
type star : metal {
  lugs point
  metal point
  rows point
  /** Ends of wires and leads that have room on it. Common practice: six on a usual ring or solder lug. */
  takes holds 6
}
`,
  'lugwork:/parts/passives.lug': `// The standard resistors, capacitors and inductors, the battery, and what carries joints without being metal.
// Body and lead spacing are common sizes, for the drawing and the cut list.

/** A resistor. */
type resistor : passive {
  lugs a b
  rows a b
  takes resistance 100k, tolerance 5%, kind film|carbon|wirewound
  takes body 6.3mm, spacing 10mm
  /** Power or voltage rating. */
  takes voltage 250V
  resistor from a to b { resistance resistance }
}

/** A capacitor without polarity. */
type capacitor : passive {
  lugs a b
  rows a b
  takes capacitance 22nF, voltage 100V, tolerance 10%, kind film|ceramic|paper|mica|polyester|polypropylene
  takes body 12mm, spacing 10mm
  /** The lead at the outer foil, marked by a band: it belongs on the grounded side. */
  takes foil
  capacitor from a to b { capacitance capacitance }
}

/** A capacitor with a plus and a minus lead. */
type electrolytic : passive {
  lugs plus minus
  rows plus minus
  takes capacitance 10uF, voltage 25V, tolerance 10%
  takes body 11mm, spacing 5mm
  capacitor from plus to minus { capacitance capacitance }
}

/** An inductor with the resistance of its winding. */
type inductor : passive {
  lugs a b
  rows a b
  takes inductance 1H, resistance 100R, tolerance 10%
  takes body 15mm, spacing 15mm
  inductor from a to b { inductance inductance, resistance resistance }
}

/** A battery and its clip: a short for signals. Take it out before you measure ohms. */
type battery : passive {
  lugs plus minus
  rows plus minus
  takes voltage 9V
  battery from plus to minus { voltage voltage }
}

/** A free splice: wires soldered together and sleeved, not on a lug. */
type junction : passive {
  lugs point
  rows point
}

/** A strip of separate lugs: as many as are named. */
type tag-strip : passive {
  optional 1 to 99
}
`,
  'lugwork:/parts/pickups.lug': `// The standard pickups. A string drives the finish of a coil positive against its start where winding and magnet agree
// (forward over north, or reverse over south); hum follows the winding alone.
// Values are middles of the published ranges (H. Lemme, "The Secrets of Electric Guitar Pickups", 2003/2009: 1 to 10 H,
// winding 80 to 200 pF); the rest is common practice. Meter the pickup in hand.

/** A pickup with one winding from ground to hot. Common practice: hot is the finish of the winding, ground its start. */
type single-coil : pickup {
  lugs hot ground
  optional cover base
  metal cover base
  rows hot ground
  takes resistance 6.5k, inductance 2.6H, capacitance 110pF
  takes wound forward|reverse, magnet north|south
  takes tolerance 5%, output 100%
  /** Resistance across the inductance that represents eddy currents in the cover and the poles. */
  takes loss
  /** Share of the inductance that eddy currents in poles and cover short, with the resistance of their path: R + jω(L − Le) + (jωLe ∥ Re). */
  takes eddy-inductance
  /** Resistance of the path of the eddy currents, as the winding sees it. */
  takes eddy-resistance
  /** Exponent n of a lossy inductor K (jω)^n in place of the inductance, 0.5 to 1. The inductance is then the one that a meter reads at 120 Hz. */
  takes loss-exponent
  /** Share of the strings' voltage that eddy currents in a metal cover take away at high frequencies: e · (1 − κ jω/(jω + Re/Le)). */
  takes cover-shading
  /** Frequency of the peak with \`resonance-load\` across the pickup and nothing else; the inductance is found from it. It is the better figure: core losses
   *  lower the inductance that acts at the peak below what a meter reads at 120 Hz. */
  takes resonance
  /** Capacitance across the pickup when the peak was measured: cable, meter and a capacitor, if there was one. */
  takes resonance-load
  /** Turns of the winding, which weigh the hum that it picks up. Where nothing is said, the square root of the inductance does. */
  takes turns
  coil main from ground to hot {
    resistance resistance, inductance inductance, capacitance capacitance, loss loss, turns turns
    eddy-inductance eddy-inductance, eddy-resistance eddy-resistance, loss-exponent loss-exponent, cover-shading cover-shading
    resonance resonance, resonance-load resonance-load
  }
}

/** A pickup with two coils in series inside, and two leads. Common practice: the two finishes are joined, the start of the north coil is hot. */
type humbucker : pickup {
  lugs hot ground
  optional cover base
  metal cover base
  rows hot ground
  takes resistance 8k, inductance 4.4H, capacitance 120pF
  takes wound forward|reverse, magnet north|south
  takes tolerance 5%, output 100%
  /** Resistance across the inductance that represents eddy currents; shared by the two coils. */
  takes loss
  /** Share of the inductance that eddy currents in poles and cover short, with the resistance of their path: R + jω(L − Le) + (jωLe ∥ Re). */
  takes eddy-inductance
  /** Resistance of the path of the eddy currents, as the winding sees it. */
  takes eddy-resistance
  /** Exponent n of a lossy inductor K (jω)^n in place of the inductance, 0.5 to 1. The inductance is then the one that a meter reads at 120 Hz. */
  takes loss-exponent
  /** Share of the strings' voltage that eddy currents in a metal cover take away at high frequencies: e · (1 − κ jω/(jω + Re/Le)). */
  takes cover-shading
  /** Frequency of the peak with \`resonance-load\` across the pickup and nothing else; the inductance is found from it. It is the better figure: core losses
   *  lower the inductance that acts at the peak below what a meter reads at 120 Hz. */
  takes resonance
  /** Capacitance across the pickup when the peak was measured: cable, meter and a capacitor, if there was one. */
  takes resonance-load
  /** Coupling factor between the two coils, positive where they aid each other in the usual series connection. Ignored unless given. */
  takes coupling
  /** Turns of both coils together, which weigh the hum that they pick up. Where nothing is said, the square root of the inductance does. */
  takes turns
  coil north from hot to middle {
    wound reverse, magnet north, share 50%
    resistance resistance, inductance inductance, capacitance capacitance, loss loss, coupling coupling, turns turns
    eddy-inductance eddy-inductance, eddy-resistance eddy-resistance, loss-exponent loss-exponent, cover-shading cover-shading
    resonance resonance, resonance-load resonance-load
  }
  coil south from ground to middle {
    wound reverse, magnet south, share 50%
    resistance resistance, inductance inductance, capacitance capacitance, loss loss, coupling coupling, turns turns
    eddy-inductance eddy-inductance, eddy-resistance eddy-resistance, loss-exponent loss-exponent, cover-shading cover-shading
    resonance resonance, resonance-load resonance-load
  }
  also screw for north
  also slug for south
}

/** A pickup with two coils, four leads and a shield. Values are those of both coils in series, coupling included.
 *  The coils are wound alike over opposite poles: joined finish to finish they are in series, in phase, and hum cancels.
 *  Common practice, not universal: meter the pickup you have. */
type humbucker-4 : pickup {
  lugs north-start north-finish south-start south-finish shield
  optional cover base
  metal shield cover base
  rows north-start north-finish south-finish south-start shield
  takes resistance 8k, inductance 4.4H, capacitance 120pF
  takes wound forward|reverse, magnet north|south
  takes tolerance 5%, output 100%
  /** Resistance across the inductance that represents eddy currents; shared by the two coils. */
  takes loss
  /** Share of the inductance that eddy currents in poles and cover short, with the resistance of their path: R + jω(L − Le) + (jωLe ∥ Re). */
  takes eddy-inductance
  /** Resistance of the path of the eddy currents, as the winding sees it. */
  takes eddy-resistance
  /** Exponent n of a lossy inductor K (jω)^n in place of the inductance, 0.5 to 1. The inductance is then the one that a meter reads at 120 Hz. */
  takes loss-exponent
  /** Share of the strings' voltage that eddy currents in a metal cover take away at high frequencies: e · (1 − κ jω/(jω + Re/Le)). */
  takes cover-shading
  /** Frequency of the peak with \`resonance-load\` across the pickup and nothing else; the inductance is found from it. It is the better figure: core losses
   *  lower the inductance that acts at the peak below what a meter reads at 120 Hz. */
  takes resonance
  /** Capacitance across the pickup when the peak was measured: cable, meter and a capacitor, if there was one. */
  takes resonance-load
  /** Coupling factor between the two coils, positive where they aid each other in the usual series connection. Ignored unless given. */
  takes coupling
  /** Turns of both coils together, which weigh the hum that they pick up. Where nothing is said, the square root of the inductance does. */
  takes turns
  coil north from north-start to north-finish {
    wound reverse, magnet north, share 50%
    resistance resistance, inductance inductance, capacitance capacitance, loss loss, coupling coupling, turns turns
    eddy-inductance eddy-inductance, eddy-resistance eddy-resistance, loss-exponent loss-exponent, cover-shading cover-shading
    resonance resonance, resonance-load resonance-load
  }
  coil south from south-start to south-finish {
    wound reverse, magnet south, share 50%
    resistance resistance, inductance inductance, capacitance capacitance, loss loss, coupling coupling, turns turns
    eddy-inductance eddy-inductance, eddy-resistance eddy-resistance, loss-exponent loss-exponent, cover-shading cover-shading
    resonance resonance, resonance-load resonance-load
  }
  also screw for north
  also slug for south
  also screw-start for north-start
  also screw-finish for north-finish
  also slug-start for south-start
  also slug-finish for south-finish
}

/** A pickup with one tapped winding: inner from ground to the tap, outer from the tap to hot.
 *  \`tap\` is the share of the turns between ground and tap. Its default is common practice. */
type single-coil-tapped : pickup {
  lugs hot tap ground
  optional cover base
  metal cover base
  rows hot tap ground
  takes resistance 9k, inductance 4H, capacitance 130pF
  takes wound forward|reverse, magnet north|south
  takes tolerance 5%, output 100%, tap 70%
  /** Resistance across the inductance that represents eddy currents; shared by the two windings. */
  takes loss
  /** Share of the inductance that eddy currents in poles and cover short, with the resistance of their path: R + jω(L − Le) + (jωLe ∥ Re). */
  takes eddy-inductance
  /** Resistance of the path of the eddy currents, as the winding sees it. */
  takes eddy-resistance
  /** Exponent n of a lossy inductor K (jω)^n in place of the inductance, 0.5 to 1. The inductance is then the one that a meter reads at 120 Hz. */
  takes loss-exponent
  /** Share of the strings' voltage that eddy currents in a metal cover take away at high frequencies: e · (1 − κ jω/(jω + Re/Le)). */
  takes cover-shading
  /** Frequency of the peak with \`resonance-load\` across the pickup and nothing else; the inductance is found from it. It is the better figure: core losses
   *  lower the inductance that acts at the peak below what a meter reads at 120 Hz. */
  takes resonance
  /** Capacitance across the pickup when the peak was measured: cable, meter and a capacitor, if there was one. */
  takes resonance-load
  /** Coupling factor between the two windings, which are on one core. */
  takes coupling 98%
  /** Turns of the whole winding, which weigh the hum that it picks up. Where nothing is said, the square root of the inductance does. */
  takes turns
  coil inner from ground to tap {
    share tap
    resistance resistance, inductance inductance, capacitance capacitance, loss loss, coupling coupling, turns turns
    eddy-inductance eddy-inductance, eddy-resistance eddy-resistance, loss-exponent loss-exponent, cover-shading cover-shading
    resonance resonance, resonance-load resonance-load
  }
  coil outer from tap to hot {
    share all but tap
    resistance resistance, inductance inductance, capacitance capacitance, loss loss, coupling coupling, turns turns
    eddy-inductance eddy-inductance, eddy-resistance eddy-resistance, loss-exponent loss-exponent, cover-shading cover-shading
    resonance resonance, resonance-load resonance-load
  }
}

/** A piezo pickup: film or crystal under the saddle. It has no winding, so no resistance to meter, and picks up no hum of a magnetic field; its leads do. It wants
 *  an input of megohms, or its bass is lost. Values are common practice, from memory. */
type piezo : pickup {
  lugs hot ground
  optional cover base
  metal cover base
  rows hot ground
  takes capacitance 500pF
  takes tolerance 20%, output 100%
  piezo main from ground to hot { capacitance capacitance }
}
`,
  'lugwork:/parts/relays.lug': `// Relays and transformers: what a coil does at a distance.

/** A relay with two changeover contacts. It is energised while a battery drives current through its coil, either way round. */
type relay : switch {
  lugs coil-a coil-b A0 A1 A2 B0 B1 B2
  rows coil-a A1 A0 A2 / coil-b B1 B0 B2
  /** Resistance of the coil: from memory, for one of 5 V that draws 30 mA. */
  takes resistance 170R
  positions rest energised
  at rest joins A0 A1, B0 B1
  at energised across coil-a and coil-b joins A0 A2, B0 B2
  rest rest
  resistor coil from coil-a to coil-b { resistance resistance }
}

/** A transformer: p1 and s1 are the starts of its windings. */
type transformer : passive {
  lugs p1 p2 s1 s2
  rows p1 p2 / s1 s2
  /** Turns of the secondary for each turn of the primary: 10 raises the voltage to ten times. */
  takes ratio 10
  /** Inductance of the primary. */
  takes inductance 1H
  /** Resistance of each winding. */
  takes primary 50R, secondary 2k
  /** Coupling factor of the windings. */
  takes coupling 99.9%
  inductor primary from p1 to p2 { inductance inductance, resistance primary, coupling coupling }
  inductor secondary from s1 to s2 { inductance inductance, ratio ratio, resistance secondary, coupling coupling }
}
`,
  'lugwork:/parts/rotaries.lug': `// The standard rotary switches: twelve contacts in a ring, shared by one, two, three or four poles (published in any catalogue).
// The common of a pole is its lug 0. The stop washer leaves the first positions: { stop 5 }. Rows are the ring unrolled, the
// commons inside it, seen from the solder side; common practice.

/** A rotary switch with one pole and twelve positions; each common goes to the throw of the position. */
type rotary-1x12 : switch {
  lugs A0 A1 A2 A3 A4 A5 A6 A7 A8 A9 A10 A11 A12 frame
  metal frame
  rows A1 A2 A3 A4 A5 A6 A7 A8 A9 A10 A11 A12 / - - - - - A0 - - - - - -
  /** Number of positions that the stop washer leaves, from the first. */
  takes stop 12
  positions 1 2 3 4 5 6 7 8 9 10 11 12
  at 1 joins A0 A1
  at 2 joins A0 A2
  at 3 joins A0 A3
  at 4 joins A0 A4
  at 5 joins A0 A5
  at 6 joins A0 A6
  at 7 joins A0 A7
  at 8 joins A0 A8
  at 9 joins A0 A9
  at 10 joins A0 A10
  at 11 joins A0 A11
  at 12 joins A0 A12
}

/** A rotary switch with two poles and six positions; each common goes to the throw of the position. */
type rotary-2x6 : switch {
  lugs A0 A1 A2 A3 A4 A5 A6
  lugs B0 B1 B2 B3 B4 B5 B6 frame
  metal frame
  rows A1 A2 A3 A4 A5 A6 B1 B2 B3 B4 B5 B6 / - - A0 - - - - - B0 - - -
  /** Number of positions that the stop washer leaves, from the first. */
  takes stop 6
  positions 1 2 3 4 5 6
  at 1 joins A0 A1, B0 B1
  at 2 joins A0 A2, B0 B2
  at 3 joins A0 A3, B0 B3
  at 4 joins A0 A4, B0 B4
  at 5 joins A0 A5, B0 B5
  at 6 joins A0 A6, B0 B6
}

/** A rotary switch with three poles and four positions; each common goes to the throw of the position. */
type rotary-3x4 : switch {
  lugs A0 A1 A2 A3 A4
  lugs B0 B1 B2 B3 B4
  lugs C0 C1 C2 C3 C4 frame
  metal frame
  rows A1 A2 A3 A4 B1 B2 B3 B4 C1 C2 C3 C4 / - A0 - - - B0 - - - C0 - -
  /** Number of positions that the stop washer leaves, from the first. */
  takes stop 4
  positions 1 2 3 4
  at 1 joins A0 A1, B0 B1, C0 C1
  at 2 joins A0 A2, B0 B2, C0 C2
  at 3 joins A0 A3, B0 B3, C0 C3
  at 4 joins A0 A4, B0 B4, C0 C4
}

/** A rotary switch with four poles and three positions; each common goes to the throw of the position. */
type rotary-4x3 : switch {
  lugs A0 A1 A2 A3
  lugs B0 B1 B2 B3
  lugs C0 C1 C2 C3
  lugs D0 D1 D2 D3 frame
  metal frame
  rows A1 A2 A3 B1 B2 B3 C1 C2 C3 D1 D2 D3 / - A0 - - B0 - - C0 - - D0 -
  /** Number of positions that the stop washer leaves, from the first. */
  takes stop 3
  positions 1 2 3
  at 1 joins A0 A1, B0 B1, C0 C1, D0 D1
  at 2 joins A0 A2, B0 B2, C0 C2, D0 D2
  at 3 joins A0 A3, B0 B3, C0 C3, D0 D3
}
`,
  'lugwork:/parts/semiconductors.lug': `// The standard semiconductors, for small signals. What they do to a loud note, clipping, isn't computed. A transistor works where a battery drives current through
// it, and what sets that current is not checked. Values are common practice, from memory; the data sheet has those of the part in hand.

/** A junction FET. Its gate takes no current; the current through drain and source follows the voltage between gate and source. */
type jfet : amplifier {
  lugs g d s
  rows d g s
  /** Change of the drain current for each volt between gate and source. */
  takes transconductance 2mS
  /** Between gate and source, and between drain and source. */
  takes input 1000M, output 100k
  /** N-channel: the drain is on the side of the battery's plus. P-channel: the source is. */
  takes channel n|p
  gain from g to d { transconductance transconductance, input input, output output, polarity channel, plus d, minus s }
}

/** A bipolar transistor. */
type transistor : amplifier {
  lugs b c e
  rows c b e
  /** Change of the collector current for each volt between base and emitter: 38 mS at 1 mA. */
  takes transconductance 38mS
  /** Between base and emitter, and between collector and emitter. */
  takes input 5k, output 100k
  /** NPN: the collector is on the side of the battery's plus. PNP: the emitter is. */
  takes polarity npn|pnp
  gain from b to c { transconductance transconductance, input input, output output, polarity polarity, plus c, minus e }
}

/** A diode: current flows from anode to cathode alone. The cathode is marked by a band. */
type diode : passive {
  lugs anode cathode
  rows anode cathode
  /** Voltage across it while it conducts: about 0.6 V of silicon, 0.3 V of germanium. */
  takes forward 0.6V
  takes body 4mm, spacing 10mm
  diode from anode to cathode { forward forward }
}

/** A light-emitting diode. It wants a resistor in series. The cathode is the shorter lead. */
type led : passive {
  lugs anode cathode
  rows anode cathode
  /** Voltage across it while it is lit: about 1.8 V of red, 3 V of blue and white. */
  takes forward 1.8V
  takes body 5mm, spacing 2.5mm
  diode from anode to cathode { forward forward, lights yes }
}

/** A Zener diode: a diode that also conducts backwards, from its voltage on. The cathode is marked by a band. */
type zener : passive {
  lugs anode cathode
  rows anode cathode
  /** Voltage from which it conducts backwards. */
  takes breakdown 5.1V
  takes forward 0.7V
  takes body 4mm, spacing 10mm
  diode from anode to cathode { forward forward, breakdown breakdown }
}

/** A lamp and a cell in one housing: lit, the cell conducts. */
type optocoupler : switch {
  lugs anode cathode a b
  rows anode cathode / a b
  /** Voltage across the lamp while it is lit. */
  takes forward 1.8V
  /** Resistance of the cell. */
  takes dark 10M, lit 500R
  positions dark lit
  at lit from anode to cathode joins middle b
  rest dark
  diode lamp from anode to cathode { forward forward, lights yes }
  resistor light from a to middle { resistance lit }
  resistor cell from middle to b { resistance dark }
}
`,
  'lugwork:/parts/toggles.lug': `// The standard toggle, slide and push switches. Two-pole contacts: a switch maker's catalogue, column "connected terminals".
// Rows are seen from the solder side and are common practice.

/** The toggle of an instrument with two pickups: each end passes one pickup, the middle both. */
type toggle-3 : switch {
  lugs A B out frame
  metal frame
  rows A out B
  positions up middle down
  at up joins A out
  at middle joins A B out
  at down joins B out
}

/** The same toggle with two output leaves, which the builder joins. Common practice: up leaves A on its leaf, down leaves B on its own, the middle both. */
type toggle-3-open : switch {
  lugs A outA outB B frame
  metal frame
  rows A outA outB B
  positions up middle down
  at up joins A outA
  at middle joins A outA, B outB
  at down joins B outB
}

/** A slide switch with two poles and two positions. */
type slide-dpdt : switch {
  lugs A0 A1 A2 B0 B1 B2 frame
  metal frame
  rows A1 A0 A2 / B1 B0 B2
  positions 1 2
  at 1 joins A0 A1, B0 B1
  at 2 joins A0 A2, B0 B2
}

/** A mini toggle with two poles and two positions. */
type mini-dpdt : switch {
  lugs A0 A1 A2 B0 B1 B2 frame
  metal frame
  rows A1 B1 / A0 B0 / A2 B2
  positions 1 2
  at 1 joins A0 A1, B0 B1
  at 2 joins A0 A2, B0 B2
}

/** A mini toggle with two poles and three positions, on-on-on: in the middle position pole B has moved, pole A not yet. */
type mini-dpdt-on : mini-dpdt {
  positions 1 middle 3
  at 1 joins A0 A1, B0 B1
  at middle joins A0 A1, B0 B2
  at 3 joins A0 A2, B0 B2
}

/** The other type of on-on-on: in the middle position pole A has moved, pole B not yet. */
type mini-dpdt-on-mirror : mini-dpdt {
  positions 1 middle 3
  at 1 joins A0 A1, B0 B1
  at middle joins A0 A2, B0 B1
  at 3 joins A0 A2, B0 B2
}

/** A mini toggle with two poles and three positions, on-off-on: the middle joins nothing. */
type mini-dpdt-off : mini-dpdt {
  positions 1 middle 3
  at 1 joins A0 A1, B0 B1
  at 3 joins A0 A2, B0 B2
}

/** An on-off switch between two lugs. */
type spst : switch {
  lugs A0 A1 frame
  metal frame
  rows A1 / A0
  positions on off
  at on joins A0 A1
}

/** A mini toggle with one pole and two positions. */
type mini-spdt : switch {
  lugs A0 A1 A2 frame
  metal frame
  rows A1 / A0 / A2
  positions 1 2
  at 1 joins A0 A1
  at 2 joins A0 A2
}

/** A mini toggle with one pole and three positions, on-off-on: the middle joins nothing. */
type mini-spdt-off : mini-spdt {
  positions 1 middle 3
  at 1 joins A0 A1
  at 3 joins A0 A2
}

/** A push button that joins its lugs while it is pressed. */
type push-on : switch {
  lugs A0 A1 frame
  metal frame
  rows A1 / A0
  positions rest pressed
  at pressed joins A0 A1
  rest rest
}

/** A push button that disconnects its lugs while it is pressed. */
type push-off : switch {
  lugs A0 A1 frame
  metal frame
  rows A1 / A0
  positions rest pressed
  at rest joins A0 A1
  rest rest
}
`,
};

/** Each rule of the solder order by itself: a small circuit that shows it, and a plan broken in that rule alone, which must be caught. */
import { describe, expect, test } from 'vitest';
import {
  buildOf,
  channelFills,
  cutList,
  ownLeads,
  sleeveList,
  solderPlan,
  type Build,
  type Plan,
  type Step,
} from '../../language/workshop/index.js';
import { judgeOrder } from './judge-order.js';
import { orderBreaches } from '../../language/workshop/plan/order-rules.js';
import { soundCircuit } from '../circuit/harness.js';

/** Two plates and a pickup cavity; a capacitor from lug 1 to lug 3 of tone hides its lug 2. */
const bench = (changes: { readonly build?: string; readonly neck?: string; readonly bore?: string } = {}): string => `
instrument "Alder Lane no. 64"
cavity horn shield depth 30mm
cavity neck-rout depth 20mm
cavity control shield depth 38mm
channel horn to neck-rout 90mm bore ${changes.bore ?? '8mm'}
channel neck-rout to control 70mm bore 8mm
plate side in horn { choose at 10 10 }
plate main in control { volume at 20 30, tone at 60 30, output at 100 30 }
place neck in neck-rout
place ground in control
part neck : single-coil { lead hot white 300mm, lead ground black 300mm ${changes.neck ?? ''} }
part choose : mini-spdt
part volume, tone : pot 250k audio
part over : capacitor 1nF from tone.1 to tone.3
part ground : star
part saddle : bridge-ground
part output : jack
wire neck.hot to choose.A0
wire neck.ground to ground
wire choose.A1 to volume.3 white 24awg shielded screen to volume.case
wire choose.A2 to volume.2 green 24awg
wire volume.3 to tone.2 yellow 24awg
wire volume.2 to output.tip yellow 24awg
wire tone.case to volume.case black 24awg
wire volume.1 to volume.case black 24awg
wire volume.case to ground black 24awg
wire saddle to ground black 22awg
wire ground to output.sleeve black 22awg
wire horn to ground black 24awg
wire control to ground black 24awg
${changes.build ?? ''}
`;
const build = buildOf(soundCircuit(bench()));
const plan = solderPlan(build);
const textsOf = (one: Build): string[] => solderPlan(one).stages.flatMap(({ steps }) => steps.map(({ text }) => text));
const texts = textsOf(build);
const at = (words: string, among = texts): number => {
  const found = among.findIndex((text) => text.includes(words));
  expect(found, words).toBeGreaterThanOrEqual(0);
  return found;
};

/** The plan with its steps put into another order in one stage, numbered anew. */
function rearranged(change: (steps: Step[], title: string) => Step[]): Plan {
  let number = 0;
  const stages = plan.stages.map((stage) => ({
    ...stage,
    steps: change([...stage.steps], stage.title).map((step) => ({ ...step, number: ++number })),
  }));
  return { ...plan, stages };
}

/** The plan with one step moved before another, through all stages. */
function moved(what: (step: Step) => boolean, before: (step: Step) => boolean): Plan {
  const step = plan.stages.flatMap(({ steps }) => steps).find(what)!;
  expect(step).toBeDefined();
  return rearranged((steps) => {
    const rest = steps.filter((one) => one !== step);
    const place = rest.findIndex(before);
    return place < 0 ? rest : [...rest.slice(0, place), step, ...rest.slice(place)];
  });
}

describe('what the rules ask', () => {
  test('joints inside a plate before leads that leave it', () => {
    expect(at('hook into volume.3 and tone.2')).toBeLessThan(at('W8'));
    expect(orderBreaches(build, moved(({ text }) => text.includes('hook into volume.3 and tone.2'), ({ kind }) => kind === 'thread'))).not.toEqual([]); // prettier-ignore
  });

  test('ground and shield first', () => {
    expect(at('tone.case and volume.case')).toBeLessThan(at('hook into volume.3 and tone.2'));
    expect(at('hook into volume.1, lay on volume.case')).toBeLessThan(at('hook into volume.2 and output.tip'));
  });

  test('each cavity from the farthest to the jack: the horn lies 160 mm of channel away', () => {
    const stages = plan.stages.filter(({ kind }) => kind === 'body').map(({ cavity }) => cavity);
    expect(stages).toEqual(['horn', 'control']);
  });

  test('leads through a channel before the part that closes it', () => {
    expect(at('pull through')).toBeLessThan(at('Seat neck'));
    const late = moved(({ kind }) => kind === 'thread', ({ kind }) => kind === 'close'); // prettier-ignore
    expect(orderBreaches(build, late).join()).toMatch(/before it is pulled through|after the body is closed/);
  });

  test('all wires of one lug in one heat: hooked now, soldered when the last one has come', () => {
    const heats = texts.filter((text) => /solder volume\.2[: ]/i.test(text));
    expect(heats).toHaveLength(1);
    expect(at(heats[0]!)).toBeGreaterThan(at('from choose.A2'));
    const twice = rearranged((steps) => steps.flatMap((step) => (step.text === heats[0] ? [step, { ...step }] : [step])));
    expect(orderBreaches(build, twice)).toContain('volume.2 is heated 2 times');
  });

  test('the stage’s test follows that: what is only hooked is not read yet', () => {
    const first = plan.stages.find(({ title }) => title.startsWith('Plate main'))!;
    const read = first.tests.map(({ text }) => text).join('\n');
    // Lug 2 waits for the wire from the horn, so its wire to the jack is not a joint yet.
    expect(read).not.toContain('volume.2');
    expect(read).toContain('volume.3');
    const last = plan.stages.find(({ title }) => title === 'Cavity control')!;
    expect(last.tests.map(({ text }) => text).join('\n')).toContain('volume.2');
  });

  test('as few cases as can be are heated both at the bench and in the body', () => {
    expect(plan.reheats).toBe(plan.bound);
    expect(orderBreaches(build, { ...plan, reheats: plan.reheats + 1 }).join()).toContain('heated in both stages');
  });

  test('a wire on a case is tacked where it lies, before anything else is brought', () => {
    const heats = plan.stages.flatMap(({ steps }) => steps.filter(({ kind, key }) => kind === 'heat' && key.startsWith('solder volume.case'))); // prettier-ignore
    expect(heats.map(({ soldered }) => soldered!.length)).toEqual([1, 1, 1, 1]);
    const late = moved(({ kind, text }) => kind === 'heat' && text.includes('to volume.case'), ({ text }) => text.includes('Solder volume.3')); // prettier-ignore
    expect(orderBreaches(build, late).join()).toContain('lies loose on its case');
  });

  test('one heat takes four ends on a lug and two on a case, or what the shop says', () => {
    const wires = [...'abcdef'].map((name) => `part ${name} : spst\nwire ${name}.A0 to o.tip\n`).join('');
    const text = `part o : jack\npart v : pot 250k audio\nwire v.case to o.sleeve\n${wires}wire v.2 to o.tip shielded screen to v.case and v.case\n`;
    const groups = (settings: string): number[][] => {
      const all = solderPlan(buildOf(soundCircuit(`${text}${settings}\n`))).stages.flatMap(({ steps }) => steps);
      return ['solder o.tip:', 'solder v.case:'].map((key) => all.filter((step) => step.key.startsWith(key)).map(({ soldered }) => soldered!.length)); // prettier-ignore
    };
    expect(groups('')).toEqual([[4, 3], [1, 2]]); // prettier-ignore
    expect(groups('build { ends 2, case-ends 1 }')).toEqual([[2, 2, 2, 1], [1, 1, 1]]); // prettier-ignore
    const crowd = rearranged((steps) => steps.map((step) => (step.kind === 'heat' ? { ...step, soldered: build.work.items.flatMap(({ ends }) => ends) } : step))); // prettier-ignore
    expect(orderBreaches(build, crowd).join()).toContain('ends in one heat');
  });

  test('a bare wire of one statement over the cases of a plate is one piece, cut whole and not stripped', () => {
    const bus = buildOf(soundCircuit('part a, b, c : pot 250k audio\npart o : jack\nwire a.case to b.case to c.case to o.sleeve bare 60mm\n')); // prettier-ignore
    expect(bus.work.items.map(({ ends }) => ends.length)).toEqual([4]);
    const [{ cuts } = { cuts: [] }] = cutList(bus);
    expect(cuts).toMatchObject([
      { mark: 'W1–W3', from: 'a.case', over: ['b.case', 'c.case'], to: 'o.sleeve', length: 0.18, strip: 0 },
    ]);
    expect(textsOf(bus)).toContain('W1–W3 bare 22 AWG, 180 mm: tin, hook into o.sleeve, lay on a.case, b.case and c.case.');
    expect(orderBreaches(bus, solderPlan(bus))).toEqual([]);
    const apart = buildOf(
      soundCircuit('part a, b, c : pot 250k audio\npart o : jack\nwire a.case to b.case to c.case black 60mm\n'),
    );
    expect(cutList(apart).flatMap(({ cuts: all }) => all.map(({ mark }) => mark))).toEqual(['W1', 'W2']);
  });

  test('covers and bases are soldered before the pickup goes into the body', () => {
    const covered = buildOf(
      soundCircuit(`part p : humbucker { lead hot, lead ground }
part v : pot 250k audio
part o : jack
solder p.cover to p.base
wire p.hot to v.3
wire p.ground to v.case
wire p.base to v.case black
wire v.2 to o.tip
wire v.case to o.sleeve
`),
    );
    const [before] = solderPlan(covered).stages;
    expect(before!.title).toBe('Pickups, at the bench');
    expect(before!.steps.map(({ text }) => text)).toEqual([
      'Scrape p.cover and p.base where they meet.',
      'Solder p.cover to p.base.',
      'W1 black 22 AWG, measure in place: tin, lay on p.base. Tag the free end “W1 v.case”.',
      'Solder W1 to p.base.',
    ]);
  });

  test('nothing hides a lug before that lug is done: the capacitor over tone.2 comes after it', () => {
    expect(at('Solder tone.2')).toBeLessThan(at('over: leads to tone.1 and tone.3'));
    const hidden = moved(({ text }) => text.startsWith('over:'), ({ text }) => text.includes('Solder tone.2')); // prettier-ignore
    expect(orderBreaches(build, hidden).join()).toContain('hidden before it is soldered');
  });

  test('heat-shrink on before the second end', () => {
    const first = at('its screen to volume.case');
    expect(texts[first]).toContain('Slide on 2 × sleeve first');
    const forgotten = rearranged((steps) => steps.map((step) => ({ ...step, text: step.text.replace(/ Slide on.*$/, '') })));
    expect(orderBreaches(build, forgotten).join()).toContain('no sleeve is slid on');
  });

  test('lugs of one switch are spaced, or the step says to let it cool', () => {
    const lever = buildOf(
      soundCircuit(`part s : lever-3
part o : jack
wire s.A1 to s.A2
wire s.B1 to s.B2
wire s.A0 to s.B0
wire s.A0 to o.tip
wire s.frame to o.sleeve
`),
    );
    const heats = solderPlan(lever).stages.flatMap(({ steps }) => steps.filter(({ kind }) => kind === 'heat'));
    heats.forEach(({ text }, i) => {
      const isSame = i > 0 && / s\./.test(text) && / s\./.test(heats[i - 1]!.text);
      expect(isSame ? /cool/.test(text) : true, text).toBe(true);
    });
    // A joint elsewhere stands between two of the switch where there is one.
    expect(heats.findIndex(({ text }) => text.includes('output') || text.includes('o.'))).toBeLessThan(heats.length - 1);
  });

  test('the string wire before posts or bridge close its hole', () => {
    expect(at('run one end to the bridge')).toBeLessThan(at('Fit the bridge or its posts'));
    const late = moved(({ key }) => key === 'seat bridge', ({ kind }) => kind === 'lay'); // prettier-ignore
    expect(orderBreaches(build, late).join()).toMatch(/after the bridge is fitted|after the body is closed/);
  });

  test('plates are screwed down last', () => {
    expect(texts.slice(-2).every((text) => text.startsWith('Screw down plate'))).toBe(true);
    const early = moved(({ text }) => text.startsWith('Screw down plate side'), ({ text }) => text.startsWith('Fit the bridge')); // prettier-ignore
    expect(orderBreaches(build, early).join()).toContain('after the body is closed');
  });

  test('the pickups’ own leads when their cavity’s way is open, never in the cut list', () => {
    expect(at('pull through')).toBeLessThan(at('lead of neck.hot'));
    expect(at('lead of neck.hot')).toBeLessThan(at('Seat neck'));
    expect(cutList(build).flatMap(({ cuts }) => cuts.map(({ from }) => from))).not.toContain('neck.hot');
    // Across neck-rout 50, channel 90, across horn 50, side plate up 30: 220; lift 50, slack 20, strip 6: 296 of 300.
    expect(ownLeads(build).map(({ mark, verdict }) => `${mark} ${verdict}`)).toContain('L1 reaches');
  });

  test('every end is brought and soldered', () => {
    const without = rearranged((steps) => steps.filter(({ text }) => !text.includes('hook into volume.2 and output.tip')));
    expect(orderBreaches(build, without).join()).toContain('is never soldered');
  });

  test('a lead that is too short is spliced before it is pulled through, and not one that reaches', () => {
    // 50 mm of neck-rout and 50 mm of horn assumed, 90 mm of channel, 30 mm down, 6 mm of strip: 226 mm. With 20 mm of slack and 50 mm of lift 296 mm; the
    // splice takes one strip more: 296 − 200 + 6 = 102 mm, cut to 105 mm.
    const short = buildOf(soundCircuit(bench().replace('hot white 300mm', 'hot white 200mm')));
    const steps = solderPlan(short).stages.flatMap((stage) => stage.steps);
    const splices = steps.filter(({ kind }) => kind === 'splice');
    expect(splices.map(({ text }) => text)).toEqual([expect.stringContaining('Piece: 105 mm of white 22 AWG')]);
    expect(cutList(short).flatMap(({ cuts }) => cuts.filter(({ mark }) => mark === 'L1'))).toMatchObject([
      { from: 'the end of L1', to: 'choose.A0', length: 0.105, assumed: true },
    ]);
    expect(sleeveList(short).filter(({ why }) => why === 'spliced lead')).toMatchObject([{ pieces: 1, length: 0.024 }]);
    expect(ownLeads(short)[0]?.verdict).toBe('too short: splice on 105 mm');
    expect(orderBreaches(short, solderPlan(short))).toEqual([]);
    expect(judgeOrder(short.circuit, solderPlan(short))).toEqual([]);
    // Behind the thread it is too late.
    const late = {
      ...solderPlan(short),
      stages: solderPlan(short)
        .stages.filter(({ steps: mine }) => !mine.some((step) => splices.includes(step)))
        .map((stage) => (stage.kind === 'thread' ? { ...stage, steps: [...stage.steps, ...splices] } : stage)),
    };
    expect(orderBreaches(short, late)).toEqual(['L1 is too short and is not spliced first']);
    expect(judgeOrder(short.circuit, late)).toEqual(['L1 is spliced too late']);
    // 226 mm reach, without slack.
    const just = buildOf(soundCircuit(bench().replace('hot white 300mm', 'hot white 226mm')));
    expect(
      solderPlan(just)
        .stages.flatMap((stage) => stage.steps)
        .filter(({ kind }) => kind === 'splice'),
    ).toEqual([]);
    expect(ownLeads(just)[0]?.verdict).toBe('reaches with less than the usual slack');
  });

  test('the lead of a pickup on a plate, soldered at the bench, is spliced before that', () => {
    // 80 mm across the plate and 6 mm of strip; with 20 mm of slack 106 mm; the splice takes one strip more: 106 − 40 + 6 = 72 mm, cut to 75 mm.
    const guard = buildOf(
      soundCircuit(`instrument "Alder Lane no. 242"
cavity control depth 38mm
plate main in control { neck at 10 30, volume at 90 30, output at 130 30 }
part neck : single-coil { lead hot white 40mm, lead ground black 300mm }
part volume : pot 250k audio
part saddle : bridge-ground
part output : jack
wire neck.hot to volume.3
wire neck.ground to volume.case
wire volume.2 to output.tip white
wire volume.1 to volume.case bare
wire saddle to volume.case black
wire volume.case to output.sleeve black
`),
    );
    const [first] = solderPlan(guard).stages;
    expect(first?.steps.map(({ text }) => text)).toEqual([expect.stringContaining('Piece: 75 mm of white 22 AWG')]);
    expect(orderBreaches(guard, solderPlan(guard))).toEqual([]);
    expect(judgeOrder(guard.circuit, solderPlan(guard))).toEqual([]);
  });

  test('a shielded lead is spliced core first, with a sleeve over each', () => {
    const braided = bench({ neck: 'shielded' })
      .replace('lead hot white 300mm', 'lead hot white 200mm shielded')
      .replace('300mm shielded }', '300mm }');
    const short = buildOf(soundCircuit(braided));
    const [splice] = solderPlan(short).stages.flatMap((stage) => stage.steps.filter(({ kind }) => kind === 'splice'));
    expect(splice?.text).toContain('slide on 2 × sleeve');
    expect(splice?.text).toContain('Piece: 105 mm of white shielded');
    expect(
      sleeveList(short)
        .filter(({ why }) => why === 'spliced lead')
        .map(({ pieces }) => pieces),
    ).toEqual([1, 1]);
  });

  test('a test with the plates off the body stands before closing', () => {
    const kinds = plan.stages.map(({ kind }) => kind);
    expect(kinds.slice(-2)).toEqual(['hanging', 'close']);
  });

  test('the plan as made breaks none', () => expect(orderBreaches(build, plan)).toEqual([]));
});

describe('a plug on a pickup’s cable', () => {
  test('sets the bore: 9 mm do not pass 8 mm', () => {
    const plugged = buildOf(soundCircuit(bench({ neck: ', plug 9mm' })));
    const [fill] = channelFills(plugged);
    expect([fill!.plugs, fill!.isFull]).toEqual([0.009, true]);
    expect(channelFills(buildOf(soundCircuit(bench({ neck: ', plug 7mm' }))))[0]!.isFull).toBe(false);
  });

  test('is pulled first, and the step says so', () => {
    const plugged = textsOf(buildOf(soundCircuit(bench({ neck: ', plug 7mm' }))));
    expect(plugged.find((text) => text.startsWith('Channel horn'))).toContain('Pull the plug of neck through first');
  });
});

describe('what the shop prefers, where the rules leave a choice', () => {
  test.each(['first signal', 'leads first', 'leads last', 'from jack'])('%s keeps every rule', (preference) => {
    const other = buildOf(soundCircuit(bench({ build: `build { ${preference} }` })));
    expect(orderBreaches(other, solderPlan(other))).toEqual([]);
    expect(solderPlan(other).reheats).toBe(plan.reheats);
    expect(textsOf(other)).not.toEqual(texts);
  });

  test('signal first, leads last, from the jack outwards', () => {
    const signal = textsOf(buildOf(soundCircuit(bench({ build: 'build { first signal }' }))));
    expect(at('hook into volume.3 and tone.2', signal)).toBeLessThan(at('tone.case and volume.case', signal));
    const last = textsOf(buildOf(soundCircuit(bench({ build: 'build { leads last }' }))));
    expect(at('lead of neck.ground', last)).toBeGreaterThan(at('from saddle', last));
    const jack = solderPlan(buildOf(soundCircuit(bench({ build: 'build { from jack }' }))));
    expect(jack.stages.filter(({ kind }) => kind === 'body').map(({ cavity }) => cavity)).toEqual(['control', 'horn']);
  });
});

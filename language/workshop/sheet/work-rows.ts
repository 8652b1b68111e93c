/** The solder order as rows: a wire with its lugs, and at each whether it is soldered now or only hooked. */
import { itemAt } from '../../collections.js';
import { listed } from '../../words.js';
import type { Build } from '../build.js';
import type { Plan, Stage, Step } from '../plan/plan.js';
import type { End } from '../plan/work.js';
import { itemName, pieceMark } from '../wording.js';
import type { TickEnd, TickRow } from './sheet-model.js';

/** The rows of a stage, without its tests. */
export interface StageRows {
  readonly stage: Stage;
  readonly rows: readonly TickRow[];
}

/** Rows numbered through the whole plan. A wire's row includes the heats that directly follow it and solder one of its ends; every other heat is a separate row. */
export function workRows(build: Build, plan: Plan): readonly StageRows[] {
  let number = 0;
  return plan.stages.map((stage) => {
    const rows: TickRow[] = [];
    const { steps } = stage;
    for (let i = 0; i < steps.length; i++) {
      const step = itemAt(steps, i);
      const heats = step.kind === 'attach' ? heatsBehind(steps.slice(i + 1), step) : [];
      i += heats.length;
      rows.push(rowOf(build, step, heats, String(++number)));
    }
    return { stage, rows };
  });
}

/** The heats right behind a step that solder something of what it has brought. */
function heatsBehind(later: readonly Step[], { ends = [] }: Step): readonly Step[] {
  const other = later.findIndex(({ kind, soldered = [] }) => kind !== 'heat' || !soldered.some((end) => ends.includes(end)));
  return other < 0 ? later : later.slice(0, other);
}

function rowOf(build: Build, step: Step, heats: readonly Step[], number: string): TickRow {
  const keys = [step.key, ...heats.map(({ key }) => key)];
  const common = { key: keys.join(' + '), keys, number, isTest: false, names: namesIn(build, step) };
  if (step.kind !== 'attach' || step.ends === undefined) return { ...common, text: step.text };
  if (step.what === undefined) return { ...common, text: bentText(build, step, heats) };
  return {
    ...common,
    text: step.what,
    ...(step.minding === undefined || step.minding === '' ? {} : { minding: step.minding }),
    ends: step.ends.map((end) => endOf(build, step, end, heats)),
  };
}

/** A bent lug has no wire to name: the sentence goes on with its solder. */
function bentText(build: Build, step: Step, heats: readonly Step[]): string {
  const others = heats.map(({ text }) => text);
  return [step.text, ...others].join(' ');
}

function endOf(build: Build, { ends = [] }: Step, end: End, heats: readonly Step[]): TickEnd {
  const heat = heats.find(({ soldered = [] }) => soldered.includes(end));
  const others = (heat?.soldered ?? [])
    .filter((other) => !ends.includes(other))
    .map(({ item }) => itemName(build, build.work.item(item)));
  const notes = [
    ...(end.side === 'screen' ? ['screen'] : []),
    ...(heat?.cool === true ? ['let it cool first'] : []),
    ...(others.length === 0 ? [] : [`with ${listed([...new Set(others)])}`]),
  ];
  return { lug: build.label(end.lug), isSoldered: heat !== undefined, note: notes.join(', ') };
}

/** What the hand looks for in a step: the wire and its lugs. */
function namesIn({ work, label }: Build, step: Step): string[] {
  const lugs = [...(step.ends ?? []).map(({ lug }) => lug), ...(step.spot === undefined ? [] : [work.spot(step.spot).lug])];
  const runs = step.item === undefined ? undefined : work.item(step.item).runs;
  return [...(runs === undefined ? [] : [pieceMark(runs)]), ...lugs.map((lug) => label(lug))];
}

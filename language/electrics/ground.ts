/** The ground network: metal that hangs free, and joints that close a loop. */
import type { AnalysedCircuit, Circuit, Joint, LugId } from '../circuit/model.js';
import { createForest, join, rootOf } from '../numerics/index.js';
import type { GroundLoop, GroundNetwork, Setting, Ungrounded } from './model.js';
import { jointClasses, netOf, nets } from './network/nets.js';
import { enumerate } from './settings/enumerate.js';

/**
 * Lugs joined to the sleeve for good; metal lugs that are not on ground in every setting, with the settings; and the loops of the ground
 * network, one for each joint too many (a fundamental cycle over a spanning forest of wires, solder joints and screens). Loops that
 * close only through metal that touches are counted. Without a jack nothing is ground, and all metal hangs free.
 */
export function groundNetwork(circuit: AnalysedCircuit): GroundNetwork {
  const classes = jointClasses(circuit);
  const ground = circuit.output === undefined ? -1 : netOf(classes, circuit.output.sleeve);
  const isGround = (lug: LugId): boolean => classes.of[lug] === ground;
  const lugs = circuit.lugs.filter((lug) => isGround(lug.id)).map((lug) => lug.id);
  const joints = circuit.joints.filter((joint) => isGround(joint.a) && joint.a !== joint.b);
  const isTouch = (joint: Joint): boolean => joint.kind === 'touch';
  const solid = joints.filter((joint) => !isTouch(joint));
  const loops = loopsOf(circuit, solid);
  // Each joint beyond a spanning forest closes one loop; the touching metal closes those that the solid joints do not.
  const touchLoops = joints.length - treeSize(circuit, joints) - loops.length;
  return { lugs, ungrounded: hangingFree(circuit, ground), loops, touchLoops };
}

function hangingFree(circuit: AnalysedCircuit, ground: number): readonly Ungrounded[] {
  const classes = jointClasses(circuit);
  const free = circuit.lugs.filter((lug) => lug.metal && classes.of[lug.id] !== ground);
  if (free.length === 0) return [];
  const { settings } = enumerate(circuit);
  // Only metal that some contact touches can be grounded in one setting and not in another.
  const touched = new Set(
    circuit.switches
      .flatMap((device) => device.positions.flatMap((position) => position.joins.flat()))
      .map((lug) => netOf(classes, lug)),
  );
  const switched = free.filter((lug) => touched.has(netOf(classes, lug.id)));
  const without = new Map<LugId, Setting[]>(switched.map((lug) => [lug.id, []]));
  if (switched.length > 0) {
    for (const setting of settings) {
      const folded = nets(circuit, setting.positions);
      for (const lug of switched)
        if (folded.ground < 0 || folded.of[lug.id] !== folded.ground) without.get(lug.id)?.push(setting);
    }
  }
  return free.flatMap((lug) => {
    const free = without.get(lug.id) ?? settings;
    return free.length === 0 ? [] : [{ lug: lug.id, settings: free, always: free.length === settings.length }];
  });
}

/** Number of joints in a spanning forest. */
function treeSize(circuit: Circuit, joints: readonly Joint[]): number {
  const parent = createForest(circuit.lugs.length);
  let size = 0;
  for (const { a, b } of joints) {
    if (rootOf(parent, a) === rootOf(parent, b)) continue;
    join(parent, a, b);
    size++;
  }
  return size;
}

/** Fundamental cycles over a forest grown in breadth, which keeps them short. Joints inside a part come first: they cannot be taken out. */
function loopsOf(circuit: Circuit, joints: readonly Joint[]): readonly GroundLoop[] {
  const at = new Map<LugId, Joint[]>();
  const ordered = [...joints].sort((a, b) => Number(b.kind === 'inside') - Number(a.kind === 'inside'));
  for (const joint of ordered) {
    for (const lug of [joint.a, joint.b]) {
      const here = at.get(lug);
      if (here === undefined) at.set(lug, [joint]);
      else here.push(joint);
    }
  }
  const above = new Map<LugId, { readonly joint: Joint; readonly depth: number } | null>();
  const inTree = new Set<Joint>();
  const start = circuit.output === undefined ? [] : [circuit.output.sleeve];
  for (const root of [...start, ...at.keys()]) {
    if (above.has(root)) continue;
    above.set(root, null);
    const queue = [root];
    for (const lug of queue) {
      const depth = above.get(lug)?.depth ?? 0;
      for (const joint of at.get(lug) ?? []) {
        const other = joint.a === lug ? joint.b : joint.a;
        if (above.has(other)) continue;
        above.set(other, { joint, depth: depth + 1 });
        inTree.add(joint);
        queue.push(other);
      }
    }
  }
  return joints.filter((joint) => !inTree.has(joint)).map((joint) => loopThrough(joint, above));
}

function loopThrough(
  joint: Joint,
  above: ReadonlyMap<LugId, { readonly joint: Joint; readonly depth: number } | null>,
): GroundLoop {
  const joints = [joint.id];
  let [a, b] = [joint.a, joint.b];
  const lugs = new Set<LugId>([a, b]);
  const depth = (lug: LugId): number => above.get(lug)?.depth ?? 0;
  while (a !== b) {
    const lower = depth(a) >= depth(b) ? a : b;
    const step = above.get(lower)?.joint;
    if (step === undefined) throw new Error('A joint beyond the forest lies between two of its trees');
    const next = step.a === lower ? step.b : step.a;
    joints.push(step.id);
    lugs.add(next);
    if (lower === a) a = next;
    else b = next;
  }
  return { joints, lugs: [...lugs] };
}

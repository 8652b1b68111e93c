/** The rules of the order, each with the sentence that a step shows as its reason. */

export type RuleName = keyof typeof REASONS;

/** Common practice where no source is named. */
export const REASONS = {
  'mounted-first': 'parts stand where they will stay, so that wires get their right length and cases touch their plate',
  'inside-first': 'joints inside a plate come before wires that leave it: nothing hangs in the way yet',
  'leaving-after': 'wires that leave the plate come after the joints inside it, so that they do not hang in the way',
  'ground-first': 'ground and shield come first: what is soldered later can be metered against them',
  'farthest-first': 'from the cavity farthest from the jack towards it, so that slack is drawn one way',
  'one-heat': 'all wires of one lug in one heat: the last one has arrived',
  'flat-together': 'a case holds no hook: what comes to it in this stage is soldered in one heat',
  'cover-last': 'small parts after the wires: a body must not hide a lug that is not done',
  'sleeve-first': 'heat-shrink goes on before the second end is soldered',
  'thread-first': 'wires go through a channel before anything closes it',
  'lead-when-open': 'a pickup’s own lead is soldered once its way is open: its length is what it is',
  'second-end': 'the second end comes once the wire is through',
  'string-ground': 'the string wire is laid before posts or bridge close its hole',
  'plates-last': 'plates are screwed down last, after the test',
} as const;

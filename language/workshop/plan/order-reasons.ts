/** The rules of the order, each with the sentence that a step shows as its reason. */

export type RuleName = keyof typeof REASONS;

/** Common practice where no source is named. */
export const REASONS = {
  'mounted-first': 'parts are mounted where they will stay, so that wires get the right length and cases touch their plate',
  'inside-first': 'joints within a plate come before wires that leave it: nothing is in the way yet',
  'leaving-after': 'wires that leave the plate come after the joints within it, so that they are not in the way',
  'ground-first': 'ground and shield come first: everything soldered later can be metered against them',
  'farthest-first': 'from the cavity farthest from the jack towards the jack, so that slack is pulled one way',
  'one-heat':
    'the wires on a lug are soldered in one heat, once the last one is there; more than a heat takes are soldered in groups',
  'flat-together': 'a wire can’t be hooked into a case: it is tacked at once where it lies, few at a time, each at its own spot',
  'pickup-first': 'a pickup’s cover and base are soldered before the pickup goes into the body',
  'cover-last': 'small parts come after the wires: the body of a part must not cover a lug that is not soldered yet',
  'sleeve-first': 'heat-shrink goes on before the second end is soldered',
  'splice-first': 'a short lead is made longer before it goes anywhere: the splice can’t be reached afterwards',
  'thread-first': 'wires go through a channel before anything blocks it',
  'lead-when-open': 'a pickup’s own lead is soldered once its route is clear: its length is fixed',
  'second-end': 'the second end is soldered once the wire is through',
  'string-ground': 'the string-ground wire is laid before the posts or the bridge cover its hole',
  'plates-last': 'plates are screwed down last, after the test',
} as const;

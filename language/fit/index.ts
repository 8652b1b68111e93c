/** fit/: the values of a pickup from measured curves. Knows numbers and tables, no circuit. */
export { fitPickup, type Fit, type FittedValue, type Origin } from './fit.js';
export { computed, type Computed, type Curve, type Load, type PickupValues, type ValueName } from './model.js';
export type { Measured, MeasuredFault, MeasuredImpedance, MeasuredResponse } from './measured.js';
export { readMeasured } from './read-measured.js';

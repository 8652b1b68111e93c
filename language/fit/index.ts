/** fit/: the values of a pickup from measured curves. Knows numbers and tables, no circuit. */
export { fitPickup, type Fit, type FittedValue, type Origin } from './fit.js';
export { computed, type Computed, type Curve, type Load, type PickupValues, type ValueName } from './model.js';
export { readMeasured, type Measured, type MeasuredFault, type MeasuredImpedance, type MeasuredResponse } from './measured.js';

/** Hear: plucked strings and the impulse response of a setting as samples. Numbers alone: it knows no circuit and plays nothing. */
export { fourier } from './fourier.js';
export { impulseResponse, responseLength } from './impulse-response.js';
export { strum, tunings, type Tuning } from './strum.js';
export { pluckedString } from './plucked-string.js';

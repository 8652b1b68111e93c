/** When a coil is heard at the output. */

/** The frequency at which it is decided what is heard, in hertz. */
export const listeningHz = 100;
/** A coil counts where it delivers at least this share of what the loudest delivers. */
const heardShare = 1 / 20;
/** Below this share of its unloaded voltage (−60 dB) a coil is silent. */
const silence = 1e-3;

/** `level` is the share of its unloaded voltage that a coil delivers, `volts` the level times its output, `loudest` the highest volts of all coils. */
export function isAudible(level: number, volts: number, loudest: number): boolean {
  return level >= silence && volts > 0 && volts >= loudest * heardShare;
}

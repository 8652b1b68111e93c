/** Plays plucked strings through a response. Nothing sounds, and no device is opened, before it is started. */
import { impulseResponse, strum, type Tuning } from '../../../../language/hear/index.js';
import type { ResponseCurve } from '../../../../server/protocol.js';

/** What is heard. */
export interface Heard {
  readonly curve: ResponseCurve;
  readonly tuning: Tuning;
  /** Each setting as loud as the others. */
  readonly isMatched: boolean;
  /** 0 to 10. */
  readonly loudness: number;
}

export interface Sound {
  readonly isPlaying: boolean;
  start(heard: Heard): void;
  stop(): void;
  /** What is heard from now on; nothing is started. */
  change(heard: Heard): void;
}

/** Seconds in which one setting gives way to the next, and milliseconds between two that are worked out while a pot is turned. */
const crossing = 0.05;
const restMs = 90;
/** A setting below this level is silent and stays so, and none is raised by more than the second figure, dB. */
const silent = -60;
const mostRaised = 40;

/** A running strum: strings, the setting that they go through now, what is turned up and down. */
interface Playing {
  readonly context: AudioContext;
  readonly strings: AudioBufferSourceNode;
  readonly output: GainNode;
  readonly tuning: Tuning;
  path?: GainNode;
}

export function createSound(): Sound {
  let playing: Playing | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const sound: Sound = {
    get isPlaying() {
      return playing !== undefined;
    },
    start(heard) {
      sound.stop();
      playing = startStrings(heard.tuning);
      playing.output.gain.value = gainOf(heard.loudness);
      goThrough(playing, heard);
    },
    stop() {
      clearTimeout(timer);
      const ended = playing;
      playing = undefined;
      if (ended === undefined) return;
      fade(ended.context, ended.output.gain, 0);
      setTimeout(() => void ended.context.close(), 1000 * 4 * crossing);
    },
    change(heard) {
      if (playing === undefined) return;
      if (playing.tuning !== heard.tuning) return sound.start(heard);
      fade(playing.context, playing.output.gain, gainOf(heard.loudness));
      clearTimeout(timer);
      timer = setTimeout(() => playing !== undefined && goThrough(playing, heard), restMs);
    },
  };
  return sound;
}

function startStrings(tuning: Tuning): Playing {
  const context = new AudioContext();
  const strings = new AudioBufferSourceNode(context, {
    buffer: bufferOf(context, strum(tuning, context.sampleRate)),
    loop: true,
  });
  const output = new GainNode(context);
  output.connect(context.destination);
  strings.start();
  // Where a browser has its doubts about the key that was pressed.
  if (context.state === 'suspended') void context.resume();
  return { context, strings, output, tuning };
}

/** Leads the strings through a setting, and away from the one before. */
function goThrough(playing: Playing, { curve, isMatched }: Heard): void {
  const { context, strings, output, path: before } = playing;
  const response = responseNode(context, curve);
  const path = new GainNode(context, { gain: 0 });
  strings.connect(response).connect(path).connect(output);
  fade(context, path.gain, isMatched ? matchingGain(curve) : 1);
  playing.path = path;
  if (before === undefined) return;
  fade(context, before.gain, 0);
  setTimeout(() => before.disconnect(), 1000 * 4 * crossing);
}

/** What does to a signal what the circuit does. */
export function responseNode(context: BaseAudioContext, curve: ResponseCurve): ConvolverNode {
  const buffer = bufferOf(context, impulseResponse(curve, context.sampleRate));
  return new ConvolverNode(context, { buffer, disableNormalization: true });
}

function bufferOf(context: BaseAudioContext, samples: Float64Array): AudioBuffer {
  const buffer = context.createBuffer(1, samples.length, context.sampleRate);
  buffer.copyToChannel(Float32Array.from(samples), 0);
  return buffer;
}

/** What brings a setting to 0 dB. */
export function matchingGain({ levelDb }: Pick<ResponseCurve, 'levelDb'>): number {
  return levelDb === null || levelDb < silent ? 1 : 10 ** (Math.min(mostRaised, -levelDb) / 20);
}

function gainOf(loudness: number): number {
  return (loudness / 10) ** 2;
}

function fade(context: BaseAudioContext, gain: AudioParam, to: number): void {
  gain.setTargetAtTime(to, context.currentTime, crossing / 3);
}

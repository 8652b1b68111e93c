/** What turns the elements of a type. */
import type { ElementDefinition, ElementValue } from './type-model.js';

/** The names of the shafts that turn an element of a type: that of a track, which may have none, and those of a stage's bands. */
export function shaftNames({ kind, properties }: ElementDefinition): readonly string[] {
  if (kind === 'track') return [wordIn(properties.get('shaft'))];
  return kind === 'gain' ? ['bass by', 'mid by', 'treble by'].map((by) => wordIn(properties.get(by))).filter(Boolean) : [];
}

function wordIn(value: ElementValue | undefined): string {
  return value?.kind === 'word' ? value.word : '';
}

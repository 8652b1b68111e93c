/** The summary of a type that completion, hover and the reference show. */
import type { ParameterInfo, TypeInfo } from '../model.js';
import { isLibraryUri } from '../../parts/index.js';
import { choicesOf, followed } from './parameters.js';
import { shaftNames } from './shaft-names.js';
import type { CompiledType, Parameter } from './type-model.js';

/** Makes the summary; types are compiled once, so it is made once. */
export function typeInfo(type: Omit<CompiledType, 'info'>): TypeInfo {
  const lugs = [...type.lugs.values()].filter((lug) => !lug.inner);
  const shafts = type.elements.flatMap(shaftNames).filter((name) => name !== '');
  return {
    name: type.name,
    base: type.base,
    ancestry: type.ancestry,
    family: type.family,
    standard: isLibraryUri(type.uri),
    lugs: lugs.filter((lug) => !lug.optional).map((lug) => lug.name),
    optional: lugs.filter((lug) => lug.optional).map((lug) => lug.name),
    metal: lugs.filter((lug) => lug.metal).map((lug) => lug.name),
    aliases: Object.fromEntries(type.aliases),
    coils: type.elements.filter((element) => element.kind === 'coil').map((coil) => coil.name),
    shafts: [...new Set(shafts)],
    parameters: [...type.parameters.values()].map((parameter) => parameterInfo(parameter, type.parameters)),
    positions: type.positions.map(({ name, joins, where, drive }) => ({
      name,
      joins,
      ...(where === undefined ? {} : { where }),
      ...(drive === undefined ? {} : { isDriven: true }),
    })),
    range: type.range,
    nameRange: type.nameRange,
    ...(type.numbered === undefined ? {} : { numbered: { from: type.numbered.from, to: type.numbered.to } }),
    ...(type.leads === undefined ? {} : { leads: type.leads }),
    ...(type.rest === undefined ? {} : { rest: type.rest }),
    ...(type.doc === undefined ? {} : { doc: type.doc }),
  };
}

function parameterInfo(parameter: Parameter, parameters: ReadonlyMap<string, Parameter>): ParameterInfo {
  const end = followed(parameter, parameters);
  return {
    name: parameter.name,
    kind: end.kind === 'follows' ? 'free' : end.kind,
    choices: choicesOf(parameter, parameters) ?? [],
    ...(end.kind === 'value' ? { unit: end.unit, value: end.value } : {}),
    ...(parameter.kind === 'follows' ? { follows: parameter.of } : {}),
    ...(parameter.doc === undefined ? {} : { doc: parameter.doc }),
    ...(parameter.range === undefined ? {} : { range: parameter.range }),
  };
}

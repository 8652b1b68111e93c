/** The package's version, put in by the build. */
declare const LUGWORK_VERSION: string | undefined;

export const version: string = typeof LUGWORK_VERSION === 'string' ? LUGWORK_VERSION : 'unbuilt';

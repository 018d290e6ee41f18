declare const __VERSION__: string;
declare const __BUILT_AT__: number;

/** Which build this is: put in by vite.config.ts; outside a build, in tests, version 0 of the year 1970. */
export const build: {
  /** SemVer, perhaps with `+label`. */
  readonly version: string;
  /** UTC ms of the commit that was built. */
  readonly at: number;
} = {
  version: typeof __VERSION__ === 'string' ? __VERSION__ : '0.0.0',
  at: typeof __BUILT_AT__ === 'number' ? __BUILT_AT__ : 0,
};

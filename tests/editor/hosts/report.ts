/** What a suite says of itself; the suite and the harness share it. */

export interface TestResult {
  readonly name: string;
  readonly passed: boolean;
  readonly milliseconds: number;
  readonly error?: string;
}

export interface SuiteReport {
  readonly host: string;
  readonly finished: boolean;
  readonly results: readonly TestResult[];
}

/** Every line that the suite prints about itself starts with this. */
export const reportMark = 'lugwork-suite:';

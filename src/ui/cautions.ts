/** Shown at the first start and under Settings, About. */
export const CAUTIONS: readonly string[] = [
  "A study aid for recall, not for operational use. The operator's current manuals, the aeroplane flight manual and your instructor prevail. Know the law of your own authority.",
  'Memory items are done from memory and then confirmed by the read checklist. Every other checklist is read: crews need not rely on memory for checklist items (14 CFR 121.315(b)).',
  'Not while on duty in the aircraft. Not while driving.',
  'A forecast is about these questions on this phone; it predicts no check result. A practice record is self-recorded: the operator or authority decides whether it counts.',
  'Install only what your operator lets you copy.',
];

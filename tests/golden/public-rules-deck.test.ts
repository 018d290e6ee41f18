import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  type Deck,
  isBlock,
  isFact,
  isNumberLimit,
  isTable,
  isUse,
  type Limit,
  type Node,
  type Step,
} from '../../src/model/deck.ts';

/*
 * An independent transcription of the facts that the public-rules deck asks: written from the documents, not from the
 * deck, so that a slip of the pen in either shows. Editions: eCFR of 2026-09-03 (91.167, 91.175 and 61.57: of
 * 2026-08-24), FAA AIM Basic with Changes 1 to 3 of 2026-07-09; others are named in the row. "(from memory)" is said
 * where no text was at hand.
 */

/** Limit, case, value (or from and to), where it is written. */
const NUMBERS: readonly (readonly [
  limit: string,
  kase: string,
  value: number | readonly [number, number],
  source: string,
])[] = [
  ['speed-below-10000', 'standard', 250, '14 CFR 91.117 para (a)'],
  ['speed-class-c-d', 'standard', 200, '14 CFR 91.117 para (b)'],
  ['speed-under-class-b', 'standard', 200, '14 CFR 91.117 para (c)'],
  ['speed-coast', 'standard', 12, 'AIM 4-4-12 j'],
  ['speed-tolerance', 'standard', 10, 'AIM 4-4-12 c'],
  ['mach-tolerance', 'standard', 0.02, 'AIM 4-4-12 c'],
  ['assigned-speed-high', 'standard', 250, 'AIM 4-4-12 d1'],
  ['assigned-speed-arrival', 'standard', 210, 'AIM 4-4-12 d2(a)'],
  ['assigned-speed-near', 'standard', 170, 'AIM 4-4-12 d2(b)'],
  ['assigned-speed-departure', 'standard', 230, 'AIM 4-4-12 d4(a)'],
  ['hold-us-low', 'standard', 200, 'AIM 5-3-8 j2(a)'],
  ['hold-us-mid', 'standard', 230, 'AIM 5-3-8 j2(a)'],
  ['hold-us-high', 'standard', 265, 'AIM 5-3-8 j2(a)'],
  ['hold-us-charted', 'standard', 210, 'AIM 5-3-8 j2(b)(1)'],
  ['hold-us-climb', 'standard', 310, 'AIM 5-3-8 j2(b)(6)'],
  ['hold-time-low', 'standard', 1, 'AIM 5-3-8 j4(a)(1)'],
  ['hold-time-high', 'standard', 1.5, 'AIM 5-3-8 j4(a)(2)'],
  ['hold-slow-down', 'standard', 3, 'AIM 5-3-8 d'],
  ['hold-sector-angle', 'standard', 70, 'AIM 5-3-8 j3(e)'],
  ['hold-teardrop-angle', 'standard', 30, 'AIM 5-3-8 j3(b)'],
  [
    'hold-icao-low-slow',
    'standard',
    170,
    'ICAO PANS-OPS Doc 8168 table as reproduced in USAF AFMAN 11-217V1 (2005) Table 18.4',
  ],
  [
    'hold-icao-low',
    'standard',
    230,
    'ICAO PANS-OPS Doc 8168 table as reproduced in USAF AFMAN 11-217V1 (2005) Table 18.4',
  ],
  [
    'hold-icao-mid',
    'standard',
    240,
    'ICAO PANS-OPS Doc 8168 table as reproduced in USAF AFMAN 11-217V1 (2005) Table 18.4',
  ],
  [
    'hold-icao-high',
    'standard',
    265,
    'ICAO PANS-OPS Doc 8168 table as reproduced in USAF AFMAN 11-217V1 (2005) Table 18.4',
  ],
  [
    'hold-icao-top',
    'standard',
    0.83,
    'ICAO PANS-OPS Doc 8168 table as reproduced in USAF AFMAN 11-217V1 (2005) Table 18.4',
  ],
  ['hold-bank', 'standard', 25, 'ICAO PANS-OPS as reproduced on a crew wiki that names ICAO as source'],
  ['rate-one', 'standard', 3, 'FAA-H-8083-15 / PANS-OPS'],
  ['category-a-below', 'standard', 91, 'AIM 5-4-7 e; 14 CFR 97.3'],
  ['category-from', 'b', 91, 'AIM 5-4-7 e; 14 CFR 97.3'],
  ['category-from', 'c', 121, 'AIM 5-4-7 e; 14 CFR 97.3'],
  ['category-from', 'd', 141, 'AIM 5-4-7 e; 14 CFR 97.3'],
  ['category-from', 'e', 166, 'AIM 5-4-7 e; 14 CFR 97.3'],
  ['vfr-visibility-b', 'standard', 3, '14 CFR 91.155(a) table'],
  ['vfr-visibility-c', 'standard', 3, '14 CFR 91.155(a) table'],
  ['vfr-visibility-e-low', 'standard', 3, '14 CFR 91.155(a) table'],
  ['vfr-visibility-e-high', 'standard', 5, '14 CFR 91.155(a) table'],
  ['vfr-below-cloud', 'standard', 500, '14 CFR 91.155(a) table'],
  ['vfr-above-cloud', 'standard', 1000, '14 CFR 91.155(a) table'],
  ['vfr-beside-cloud', 'standard', 2000, '14 CFR 91.155(a) table'],
  ['vfr-below-cloud-high', 'standard', 1000, '14 CFR 91.155(a) table'],
  ['vfr-beside-cloud-high', 'standard', 1, '14 CFR 91.155(a) table'],
  ['vfr-visibility-g-low', 'day', 1, '14 CFR 91.155(a) table'],
  ['vfr-visibility-g-low', 'night', 3, '14 CFR 91.155(a) table'],
  ['vfr-ceiling-surface', 'standard', 1000, '14 CFR 91.155(c), (d)'],
  ['vfr-ground-visibility', 'standard', 3, '14 CFR 91.155(c), (d)'],
  [
    'vfr-eu-visibility-high',
    'standard',
    8,
    'EU-OPS Appendix 1 to OPS 1.465 (Reg. (EC) 8/2008); same figures as SERA.5001 Table S5-1',
  ],
  [
    'vfr-eu-visibility-low',
    'standard',
    5,
    'EU-OPS Appendix 1 to OPS 1.465 (Reg. (EC) 8/2008); same figures as SERA.5001 Table S5-1',
  ],
  [
    'vfr-eu-horizontal',
    'standard',
    1500,
    'EU-OPS Appendix 1 to OPS 1.465 (Reg. (EC) 8/2008); same figures as SERA.5001 Table S5-1',
  ],
  [
    'vfr-eu-vertical',
    'standard',
    300,
    'EU-OPS Appendix 1 to OPS 1.465 (Reg. (EC) 8/2008); same figures as SERA.5001 Table S5-1',
  ],
  ['height-congested', 'standard', 1000, '14 CFR 91.119(b)'],
  ['height-open', 'standard', 500, '14 CFR 91.119(c)'],
  ['fuel-vfr', 'day', 30, '14 CFR 91.151(a)'],
  ['fuel-vfr', 'night', 45, '14 CFR 91.151(a)'],
  ['fuel-ifr', 'standard', 45, '14 CFR 91.167(a)(3)'],
  ['alternate-ceiling', 'standard', 2000, '14 CFR 91.167(b)(2)(i)'],
  ['alternate-visibility', 'standard', 3, '14 CFR 91.167(b)(2)(i)'],
  ['alternate-window', 'standard', 1, '14 CFR 91.167(b)(2)(i)'],
  ['o2-91-free', 'standard', 12_500, '14 CFR 91.211 (a)(1)'],
  ['o2-91-minutes', 'standard', 30, '14 CFR 91.211 (a)(1)'],
  ['o2-91-always', 'standard', 14_000, '14 CFR 91.211 (a)(2)'],
  ['o2-91-occupants', 'standard', 15_000, '14 CFR 91.211 (a)(3)'],
  ['o2-91-supply', 'standard', 250, '14 CFR 91.211 (b)(1)(i)'],
  ['o2-91-mask', 'standard', 350, '14 CFR 91.211 (b)(1)(ii)'],
  ['o2-91-mask-relief', 'standard', 410, '14 CFR 91.211 (b)(1)(ii)'],
  ['quick-donning', 'standard', 5, '14 CFR 91.211 (b)(1)(ii); 14 CFR 121.333(c)(2)(i)'],
  ['o2-121-free', 'standard', 10_000, '14 CFR 121.329 (b)(1)'],
  ['o2-121-always', 'standard', 12_000, '14 CFR 121.329 (b)(2)'],
  ['o2-121-passengers-low', 'standard', 10, '14 CFR 121.329 (c)'],
  ['o2-121-passengers-mid', 'standard', 30, '14 CFR 121.329 (c)'],
  ['o2-121-passengers-high', 'standard', 100, '14 CFR 121.329 (c)'],
  ['o2-121-mask-relief', 'standard', 410, '14 CFR 121.333 (c)(2)(i)(A)'],
  ['o2-121-alone', 'standard', 410, '14 CFR 121.333 (c)(3)'],
  ['o2-121-supply', 'standard', 2, '14 CFR 121.333 (b)'],
  ['cabin-normal', 'standard', 8000, '14 CFR 25.841 (a)'],
  ['cabin-alert', 'standard', 10_000, '14 CFR 25.841 (b)(6)'],
  ['cabin-25000-minutes', 'standard', 2, '14 CFR 25.841 (a)(2)'],
  ['cabin-ceiling', 'standard', 40_000, '14 CFR 25.841 (a)(2)'],
  ['consciousness-25000', 'standard', [3, 5], 'FAA-H-8083-25 (PHAK) Figure 17-1'],
  ['consciousness-30000', 'standard', [1, 2], 'FAA-H-8083-25 (PHAK) Figure 17-1'],
  ['consciousness-35000', 'standard', [30, 60], 'FAA-H-8083-25 (PHAK) Figure 17-1'],
  ['consciousness-40000', 'standard', [15, 20], 'FAA-H-8083-25 (PHAK) Figure 17-1'],
  ['standard-setting', 'standard', 29.92, '14 CFR 91.121 (a)(2)'],
  ['transition-us', 'standard', 18_000, '14 CFR 91.121 (a)(2)'],
  ['setting-station', 'standard', 100, '14 CFR 91.121 (a)(1)(i)'],
  ['altimeter-ground-check', 'standard', 75, 'AIM 7-2-3 a3'],
  ['altimeter-per-inch', 'standard', 1000, 'AIM 7-2-3 b'],
  ['extreme-setting', 'standard', 31, 'AIM 7-2-3 c1(b)'],
  ['mode-c-difference', 'standard', 125, '14 CFR Part 43 Appendix E (c)'],
  ['barometric-scale-error', 'standard', 25, '14 CFR Part 43 Appendix E (b)(1)(vi)'],
  ['vor-interval', 'standard', 30, '14 CFR 91.171'],
  ['vor-ground', 'standard', 4, '14 CFR 91.171'],
  ['vor-air', 'standard', 6, '14 CFR 91.171'],
  ['vor-dual', 'standard', 4, '14 CFR 91.171'],
  ['approach-lights-only', 'standard', 100, '14 CFR 91.175 (c)(3)(i)'],
  ['take-off-visibility-two', 'standard', 1, '14 CFR 91.175 (f)(2)'],
  ['take-off-visibility-more', 'standard', 0.5, '14 CFR 91.175 (f)(2)'],
  ['autopilot-take-off', 'standard', 500, '14 CFR 121.579(b)'],
  ['autopilot-en-route', 'standard', 500, '14 CFR 121.579(c)'],
  ['autopilot-approach', 'standard', 50, '14 CFR 121.579(d)'],
  ['stabilised-height', 'imc', 1000, 'Flight Safety Foundation ALAR Briefing Note 7.1 elements'],
  ['stabilised-height', 'vmc', 500, 'Flight Safety Foundation ALAR Briefing Note 7.1 elements'],
  ['stabilised-speed', 'standard', 20, 'FSF ALAR elements'],
  ['stabilised-sink', 'standard', 1000, 'FSF ALAR elements'],
  ['stabilised-ils', 'standard', 1, 'FSF ALAR elements'],
  ['stabilised-circling', 'standard', 300, 'FSF ALAR elements'],
  ['v2min-vsr', 'standard', 1.13, '14 CFR 25.107 (b)(1)'],
  ['v2min-vsr-power', 'standard', 1.08, '14 CFR 25.107 (b)(2)'],
  ['v2min-vmc', 'standard', 1.1, '14 CFR 25.107 (b)(3)'],
  ['vr-vmc', 'standard', 1.05, '14 CFR 25.107 (e)(1)'],
  ['vlof-vmu', 'all', 1.1, '14 CFR 25.107 (e)(1)(iv)(A)'],
  ['vlof-vmu', 'one-out', 1.05, '14 CFR 25.107 (e)(1)(iv)(A)'],
  ['early-rotation', 'standard', 5, '14 CFR 25.107 (e)(3)'],
  ['vfto-vsr', 'standard', 1.18, '14 CFR 25.107 (g)(1)'],
  ['vref-vsr0', 'standard', 1.23, '14 CFR 25.125(b)(2)(i)'],
  ['vmc-vsr', 'standard', 1.13, '14 CFR 25.149 (b)-(d)'],
  ['vmc-bank', 'standard', 5, '14 CFR 25.149 (b)-(d)'],
  ['vmc-heading', 'standard', 20, '14 CFR 25.149 (b)-(d)'],
  ['vmcg-deviation', 'standard', 30, '14 CFR 25.149 (e)'],
  ['gradient-second', 'two', 2.4, '14 CFR 25.121 (b)(1)'],
  ['gradient-second', 'three', 2.7, '14 CFR 25.121 (b)(1)'],
  ['gradient-second', 'four', 3, '14 CFR 25.121 (b)(1)'],
  ['gradient-final', 'two', 1.2, '14 CFR 25.121 (c)(1)'],
  ['gradient-final', 'three', 1.5, '14 CFR 25.121 (c)(1)'],
  ['gradient-final', 'four', 1.7, '14 CFR 25.121 (c)(1)'],
  ['gradient-landing', 'standard', 3.2, '14 CFR 25.119'],
  ['screen-height', 'standard', 35, '14 CFR 25.111 (c)(2)'],
  ['no-change-below', 'standard', 400, '14 CFR 25.111 (c)(4)'],
  ['gradient-from-400', 'two', 1.2, '14 CFR 25.111 (c)(3)'],
  ['gradient-from-400', 'three', 1.5, '14 CFR 25.111 (c)(3)'],
  ['gradient-from-400', 'four', 1.7, '14 CFR 25.111 (c)(3)'],
  ['take-off-path-end', 'standard', 1500, '14 CFR 25.111 (a)'],
  ['take-off-distance-factor', 'standard', 115, '14 CFR 25.113 (a)(2)'],
  ['landing-distance-height', 'standard', 50, '14 CFR 25.125(a)'],
  ['headwind-credit', 'standard', 50, '14 CFR 25.125(f); same for take-off in 25.105(d)(1)'],
  ['tailwind-penalty', 'standard', 150, '14 CFR 25.125(f); same for take-off in 25.105(d)(1)'],
  ['crosswind-demonstration', 'standard', 0.2, 'FAA-H-8083-25 ch. 11; FAA-H-8083-3 ch. 9'],
  ['rated-take-off-thrust', 'standard', 5, '14 CFR 1.1 Rated takeoff thrust'],
  ['reduced-thrust', 'standard', 25, 'FAA AC 25-13 (4 May 1988)'],
  ['take-off-pitch', 'standard', [10, 15], 'FAA-H-8083-3A ch. 15 Rotation and Lift-Off'],
  ['rotation-rate', 'standard', [2.5, 3], 'FAA-H-8083-3A ch. 15'],
  ['wake-us-super-heavy', 'standard', 5, 'AIM 7-4-9 a1'],
  ['wake-us-super-large', 'standard', 7, 'AIM 7-4-9 a1'],
  ['wake-us-super-small', 'standard', 8, 'AIM 7-4-9 a1'],
  ['wake-us-heavy-heavy', 'standard', 3, 'AIM 7-4-9 a1(d)'],
  ['wake-us-heavy-other', 'standard', 5, 'AIM 7-4-9 a1(e)'],
  ['wake-us-threshold-heavy', 'standard', 6, 'AIM 7-4-9 a2'],
  ['wake-us-threshold-large', 'standard', 4, 'AIM 7-4-9 a2'],
  ['wake-us-departure-super', 'standard', 3, 'AIM 7-4-9 b'],
  ['wake-us-departure-heavy', 'standard', 2, 'AIM 7-4-9 b'],
  ['wake-us-intersection-super', 'standard', 4, 'AIM 7-4-9 e'],
  ['wake-us-intersection-heavy', 'standard', 3, 'AIM 7-4-9 e'],
  ['wake-icao-heavy-mass', 'standard', 136_000, 'ICAO Doc 4444 para 4.9.1.1 as quoted'],
  ['wake-icao-light-mass', 'standard', 7000, 'ICAO Doc 4444 para 4.9.1.1 as quoted'],
  ['wake-icao-super-heavy', 'standard', 6, 'ICAO Doc 4444 8.7.3.4 (from memory)'],
  ['wake-icao-heavy-heavy', 'standard', 4, 'ICAO Doc 4444 8.7.3.4 (from memory)'],
  ['wake-icao-heavy-light', 'standard', 6, 'ICAO Doc 4444 8.7.3.4 (from memory)'],
  ['emergency-vhf', 'standard', 121.5, 'AIM 6-3-1 h'],
  ['emergency-uhf', 'standard', 243, 'AIM 6-3-1 h'],
  ['mayday-times', 'standard', 3, 'AIM 6-3-1 c'],
  ['aiming-point', 'standard', 1000, 'AIM 2-3-3 d'],
  ['touchdown-zone-step', 'standard', 500, 'AIM 2-3-3 e'],
  ['centreline-spacing', 'standard', 50, 'AIM 2-1-5 a'],
  ['centreline-mixed', 'standard', 3000, 'AIM 2-1-5 a'],
  ['centreline-red', 'standard', 1000, 'AIM 2-1-5 a'],
  ['touchdown-lights-end', 'standard', 3000, 'AIM 2-1-5 b'],
  ['threshold-bar', 'standard', 10, 'AIM 2-3-3 i, j'],
  ['pattern-propeller', 'standard', 1000, 'AIM 4-3-3 a'],
  ['pattern-turbine', 'standard', 1500, 'AIM 4-3-3 a'],
  ['crosswind-turn', 'standard', 300, 'AIM 4-3-3 fig. key 5'],
  ['sterile-cockpit', 'standard', 10_000, '14 CFR 121.542(c)'],
  ['recency-landings', 'standard', 3, '14 CFR 61.57(a)(1)'],
  ['recency-days', 'standard', 90, '14 CFR 61.57(a)(1)'],
  ['recency-approaches', 'standard', 6, '14 CFR 61.57(c)(1)'],
  ['recency-approach-months', 'standard', 6, '14 CFR 61.57(c)(1)'],
  ['recency-121-days', 'standard', 90, '14 CFR 121.439(a)'],
  ['proficiency-check-captain', 'standard', 12, '14 CFR 121.441(a)(1)'],
  ['operator-check-eu', 'standard', 6, 'ORO.FC.230(b)(3), UK Air Operations consolidated text 2021'],
  ['bottle-to-throttle', 'standard', 8, '14 CFR 91.17(a)'],
  ['fcl-height', 'standard', 100, 'Reg. (EU) 1178/2011 Annex I Appendix 9 part B para 4 (UK retained text)'],
  ['fcl-go-around', 'standard', 50, 'Reg. (EU) 1178/2011 Annex I Appendix 9 part B para 4 (UK retained text)'],
  ['fcl-heading', 'all', 5, 'Reg. (EU) 1178/2011 Annex I Appendix 9 part B para 4 (UK retained text)'],
  ['fcl-heading', 'one-out', 10, 'Reg. (EU) 1178/2011 Annex I Appendix 9 part B para 4 (UK retained text)'],
  ['fcl-radio-aid', 'standard', 5, 'Reg. (EU) 1178/2011 Annex I Appendix 9 part B para 4 (UK retained text)'],
  ['acs-altitude', 'standard', 100, 'FAA-S-ACS-8C IR.IV.A.S1'],
  ['acs-heading', 'standard', 10, 'FAA-S-ACS-8C IR.IV.A.S1'],
  ['acs-airspeed', 'standard', 10, 'FAA-S-ACS-8C IR.IV.A.S1'],
  ['acs-bank', 'standard', 5, 'FAA-S-ACS-8C IR.IV.A.S1'],
  ['speed-250-ends', 'standard', 10_000, '14 CFR 91.117 para (a): the limit holds below'],
  ['o2-91-alone', 'standard', 350, '14 CFR 91.211(b)(2)'],
  ['landing-climb-seconds', 'standard', 8, '14 CFR 25.119'],
];

/** Limit, case, words of the document: the right choice is the one that says them in the shortest text, where it is written. */
const FACTS: readonly (readonly [limit: string, kase: string, words: readonly string[], source: string])[] = [
  ['vfr-cloud-b', 'standard', ['clear of clouds'], '14 CFR 91.155(a) table'],
  ['vfr-cruise-east', 'standard', ['odd thousand', '500'], '14 CFR 91.159(a)(1)'],
  ['vfr-cruise-west', 'standard', ['even thousand', '500'], '14 CFR 91.159(a)(2)'],
  ['gradient-first', 'two', ['positive'], '14 CFR 25.121 (a)'],
  ['gradient-first', 'three', ['0.3'], '14 CFR 25.121 (a)'],
  ['gradient-first', 'four', ['0.5'], '14 CFR 25.121 (a)'],
  ['gear-retraction', 'standard', ['airborne'], '14 CFR 25.111 (b)'],
  ['reduced-thrust-slush', 'standard', ['not authorised'], 'FAA AC 25-13 para 5.f(1)'],
  ['signal-ground-steady-green', 'standard', ['cleared for takeoff'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-ground-flashing-green', 'standard', ['cleared for taxi'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-ground-steady-red', 'standard', ['stop'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-ground-flashing-red', 'standard', ['taxi clear of the runway in use'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-ground-flashing-white', 'standard', ['return to', 'starting point'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-ground-alternating', 'standard', ['exercise extreme caution'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-flight-steady-green', 'standard', ['cleared to land'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-flight-flashing-green', 'standard', ['return for landing'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  [
    'signal-flight-steady-red',
    'standard',
    ['give way to other aircraft', 'circling'],
    'AIM 4-3-13 table; 14 CFR 91.125',
  ],
  ['signal-flight-flashing-red', 'standard', ['airport unsafe', 'do not land'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['signal-flight-alternating', 'standard', ['exercise extreme caution'], 'AIM 4-3-13 table; 14 CFR 91.125'],
  ['code-vfr', 'standard', ['1200'], 'AIM 4-1-20 a5(a)'],
  ['code-emergency', 'standard', ['7700'], 'AIM 4-1-20 g9; AIM 6-3-2 a2(b)'],
  ['code-radio-failure', 'standard', ['7600'], 'AIM 6-4-2 a'],
  ['code-hijack', 'standard', ['7500'], 'AIM 4-1-20 e1'],
  ['code-military', 'standard', ['7777'], 'AIM 4-1-20 e2'],
  ['tcas-alone', 'standard', ['do not deviate'], 'AIM 4-4-16 b'],
  ['tcas-directions', 'standard', ['climb', 'descend'], 'AIM 4-4-16 b'],
  ['position-lights', 'standard', ['sunset to sunrise'], '14 CFR 91.209(a)'],
  ['line-up-lights', 'standard', ['all except landing lights'], 'AIM 4-3-24 g'],
  ['landing-lights-on', 'standard', ['takeoff clearance received'], 'AIM 4-3-24 g'],
  ['alert-warning', 'standard', ['red'], '14 CFR 25.1322(e)(1)'],
  ['alert-caution', 'standard', ['amber or yellow'], '14 CFR 25.1322(e)(1)'],
  ['alert-advisory', 'standard', ['any', 'red', 'green'], '14 CFR 25.1322(e)(1)'],
];

/** Limit, rows of the document, where it is written. */
const TABLES: readonly (readonly [limit: string, rows: readonly (readonly [number, number])[], source: string])[] = [
  [
    'lowest-usable-level',
    // "29.92 or higher", "29.91-29.42", ... : a row starts at its lowest setting.
    [
      [26.92, 210],
      [27.42, 205],
      [27.92, 200],
      [28.42, 195],
      [28.92, 190],
      [29.42, 185],
      [29.92, 180],
    ],
    '14 CFR 91.121 (b) table',
  ],
  [
    'altimeter-scale-error',
    [
      [10_000, 80],
      [20_000, 130],
      [30_000, 180],
      [40_000, 230],
    ],
    '14 CFR Part 43 Appendix E Table I',
  ],
  [
    'isa-temperature',
    [
      [0, 15],
      [5000, 5.1],
      [10_000, -4.8],
      [15_000, -14.7],
      [20_000, -24.6],
    ],
    'FAA-H-8083-25 Figure 4-3',
  ],
  [
    'threshold-stripes',
    [
      [60, 4],
      [75, 6],
      [100, 8],
      [150, 12],
      [200, 16],
    ],
    'AIM 2-3-3 h',
  ],
];

/**
 * Procedure, a word or two of each step in the order of the document (steps that may change places in one group),
 * where it is written.
 */
const SEQUENCES: readonly (readonly [procedure: string, groups: readonly (readonly string[])[], source: string])[] = [
  ['lost-com-route', [['assigned'], ['vector'], ['expected'], ['filed']], '14 CFR 91.185(c)(1)'],
  [
    'lost-com-limit',
    [['leave'], ['fix from which an approach begins'], ['estimated time of arrival']],
    '14 CFR 91.185(c)(3)(ii)',
  ],
  ['vor-check-method', [['test signal'], ['airborne checkpoint'], ['ground point']], '14 CFR 91.171(b)'],
  ['altimeter-source', [['along the route'], ['appropriate available'], ['departure']], '14 CFR 91.121(a)(1)'],
  ['altimeter-check', [['current reported'], ['altitude'], ['field elevation']], 'AIM 7-2-3 a'],
  ['hold-parallel', [['cross the fix'], ['nonholding side'], ['one minute'], ['180'], ['inbound']], 'AIM 5-3-8 j3(a)'],
  [
    'traffic-pattern',
    [['midpoint'], ['downwind'], ['turn to final'], ['straight ahead'], ['crosswind']],
    'AIM 4-3-3 figure key',
  ],
  [
    'lights-to-take-off',
    [['beacon', 'navigation'], ['taxi light'], ['all exterior'], ['except landing'], ['landing lights on']],
    'AIM 4-3-24 d-g',
  ],
  [
    'transponder-on-ground',
    [['altitude reporting, ads'], ['to ta or ta/ra'], ['deselect'], ['standby']],
    'AIM 4-1-20 a3',
  ],
  [
    'tcas-response',
    [['see the traffic'], ['respond at once'], ['left the clearance'], ['clear of conflict']],
    'AIM 4-4-16 b',
  ],
  ['take-off-speeds', [['vmcg'], ['vef'], ['v1'], ['vr'], ['vlof'], ['v2']], '14 CFR 25.107'],
  [
    'take-off-path',
    [['gear retracts'], ['gear up'], ['accelerate'], ['clean']],
    'trade division; gradients in 14 CFR 25.121',
  ],
  [
    'stall-recovery',
    [['autopilot'], ['pitch control', 'pitch trim'], ['wings level'], ['thrust'], ['speed brakes'], ['flight path']],
    'FAA AC 120-109 Table 1',
  ],
  [
    'jet-take-off-roll',
    [['line up'], ['intermediate'], ['stabilise'], ['takeoff thrust'], ['direction', 'hand on'], ['rotate']],
    'FAA-H-8083-3 chapter 15',
  ],
  ['decision-steps', [['detect'], ['estimate'], ['choose'], ['identify'], ['do '], ['evaluate']], 'FAA AC 60-22'],
];

const deck = JSON.parse(readFileSync(new URL('../../decks/public-rules.deck.json', import.meta.url), 'utf8')) as Deck;
const limits = new Map<string, Limit>((deck.limits ?? []).map((l) => [l.id, l]));

const found = (id: string): Limit => {
  const l = limits.get(id);
  if (!l) throw new Error(`The deck has no limit "${id}": a row of the transcription names it.`);
  return l;
};

/** Lower case, no hyphens, one space: "Take-off" and "takeoff" are one word. */
const fold = (text: string): string => text.toLowerCase().replaceAll('-', '').replace(/\s+/g, ' ');

/** "91.117" of "14 CFR 91.117 para (a)", "4-4-12" of "AIM 4-4-12 c"; null for documents without such numbers. */
const paragraph = (source: string): string | null => /^(?:14 CFR|AIM) (\d+\.\d+|\d+-\d+-\d+)/.exec(source)?.[1] ?? null;

const expectCited = (id: string, source: string): void => {
  const where = paragraph(source);
  if (where !== null) expect(found(id).source, `${id} cites ${source}`).toContain(`#${where}`);
};

/** Steps in authored order, those of one `together` or `lanes` block in one group. */
const groups = (nodes: readonly Node[]): readonly (readonly Step[])[] =>
  nodes.flatMap((n) => {
    if (isUse(n)) throw new Error('This deck shares no blocks.');
    if (!isBlock(n)) return [[n]];
    const inner = n.lanes ? n.lanes.map((lane) => groups(lane).flat()) : groups(n.steps ?? []);
    return n.together || n.lanes ? [inner.flat()] : inner;
  });

describe('public rules deck against the transcription', () => {
  it('transcribes at least 64 numbers', () => {
    expect(NUMBERS.length).toBeGreaterThanOrEqual(64);
  });

  it.each(NUMBERS)('%s, %s: %j (%s)', (id, kase, value, source) => {
    const l = found(id);
    if (!isNumberLimit(l)) throw new Error(`"${id}" is not a number`);
    const inDeck = l.cases ? l.cases.find((c) => c.id === kase) : kase === 'standard' ? l : undefined;
    expect(inDeck, `${id} has a case ${kase}`).toBeDefined();
    expect(typeof value === 'number' ? inDeck?.value : [inDeck?.from, inDeck?.to]).toEqual(value);
    expectCited(id, source);
  });

  it.each(FACTS)('%s, %s: %j (%s)', (id, kase, words, source) => {
    const l = found(id);
    if (!isFact(l)) throw new Error(`"${id}" is not a choice`);
    const right = l.cases ? l.cases.find((c) => c.id === kase)?.is : kase === 'standard' ? l.is : undefined;
    const saying = Object.entries(l.options)
      .filter(([, text]) => words.every((w) => ` ${fold(text)}`.includes(` ${fold(w)}`)))
      .sort(([, a], [, b]) => a.length - b.length)
      .map(([option]) => option);
    expect(saying[0]).toBe(right);
    expect(right).toBeDefined();
    expectCited(id, source);
  });

  it.each(TABLES)('%s: rows', (id, rows, source) => {
    const l = found(id);
    if (!isTable(l)) throw new Error(`"${id}" is not a table`);
    expect(l.table.rows).toEqual(rows);
    expect(l.asked).toBe(true);
    expectCited(id, source);
  });

  it.each(SEQUENCES)('%s: order of the document', (id, words, source) => {
    const p = deck.procedures?.find((x) => x.id === id);
    const texts = groups(p?.steps ?? []).map((g) => g.map((step) => fold(`${step.do ?? ''}${step.say ?? ''}`)));
    expect(texts.map((g) => g.length)).toEqual(words.map((g) => g.length));
    words.forEach((g, i) => {
      g.forEach((word, j) => {
        expect(texts[i]?.[j]).toContain(fold(word));
      });
    });
    const where = paragraph(source);
    if (where !== null) expect(p?.source).toContain(`#${where}`);
  });

  it('leaves no case of the deck without a row', () => {
    const rows = new Set([...NUMBERS, ...FACTS].map(([id, kase]) => `${id}/${kase}`));
    const tables = new Set(TABLES.map(([id]) => id));
    const missing = [...limits.values()].flatMap((l) =>
      isTable(l)
        ? tables.has(l.id)
          ? []
          : [l.id]
        : (l.cases ?? [{ id: 'standard' }]).map((c) => `${l.id}/${c.id}`).filter((key) => !rows.has(key)),
    );
    expect(missing).toEqual([]);
    expect(new Set(SEQUENCES.map(([id]) => id))).toEqual(new Set(deck.procedures?.map((p) => p.id)));
  });

  it('marks as from memory exactly what was transcribed from memory', () => {
    const basis = new Map(deck.sources.map((s) => [s.id, s.basis]));
    const inDeck = [...limits.values()].filter((l) => basis.get(l.source?.split('#')[0] ?? '') === 'from-memory');
    const inRows = new Set(NUMBERS.filter(([, , , source]) => source.endsWith('(from memory)')).map(([id]) => id));
    expect(new Set(inDeck.map((l) => l.id))).toEqual(inRows);
    expect(inRows.size).toBeGreaterThan(0);
  });

  it('gives every limit and procedure a source of the list, and answers nothing in the question', () => {
    const ids = new Set(deck.sources.map((s) => s.id));
    for (const thing of [...limits.values(), ...(deck.procedures ?? [])]) {
      expect(ids, thing.id).toContain(thing.source?.split('#')[0]);
    }
    for (const [id, , value] of NUMBERS) {
      if (typeof value !== 'number') continue;
      const l = found(id);
      const unit = isNumberLimit(l) ? l.unit : '';
      const stated = `${value.toLocaleString('en-US')} ${unit}`;
      expect(l.ask.includes(stated), `${id}: "${stated}" in "${l.ask}"`).toBe(false);
    }
  });
});

/**
 * What an instrument teacher would remind a player of. Shown beside practice, never in place of
 * advice from a professional.
 */
export interface Caution {
  readonly code: 'pain' | 'breaks' | 'warm-up' | 'hard strokes' | 'hearing' | 'professional';
  readonly text: string;
  /** Where the text comes from. */
  readonly source: string;
}

/** Most urgent first. */
export const CAUTIONS: readonly Caution[] = [
  {
    code: 'pain',
    text: 'Stop when something hurts, tingles or goes numb, and do not play through it.',
    source:
      'Two drummers in three have had playing-related pain: 68 % of 831 (Azar 2020, Med. Probl. Perform. Art. 35(3):153-161). Stopping on pain is common advice, not a measured rule.',
  },
  {
    code: 'breaks',
    text: 'Put the sticks down for 5 to 10 minutes in every half hour, and add load little by little.',
    source:
      'Common advice, not a measured threshold. Repetition, posture and hand-arm vibration are the risks named by Azar 2022, Front. Psychol. 13:883279.',
  },
  {
    code: 'warm-up',
    text: 'Begin slow and soft; a new tempo or a new move comes after that.',
    source:
      'Common practice. Drummers not taught injury prevention warmed up less and reported pain nearly twice as often (Azar et al. 2021, J. Pop. Music Educ. 5(2)).',
  },
  {
    code: 'hard strokes',
    text: 'Before striking hard, turn the headphones down; a few strokes are enough, and none that hurts.',
    source: 'Common practice, no source.',
  },
  {
    code: 'hearing',
    text: 'Keep headphones low. 85 dBA is enough for 8 hours, 94 dBA for one, 100 dBA for 15 minutes. This page cannot measure how loud yours are.',
    source:
      'NIOSH 1998, Pub. 98-126: 85 dBA for 8 h, halved for every 3 dB more. WHO-ITU H.870 is stricter: adults 80 dBA for 40 h a week, children 75 dBA.',
  },
  {
    code: 'professional',
    text: 'Pain, numbness or ringing ears that stay belong with a doctor or a therapist, and technique with your teacher. These figures judge time and level, not how you move.',
    source: 'Common practice.',
  },
];

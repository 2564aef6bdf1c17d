/** What the rings of a pad on the screen mean. */
export const RINGS_OF_A_PAD =
  'The middle of a pad is an accent, the ring around it a tap, the edge a ghost.';

/**
 * Strokes of one voice, time and velocity are twins: matching cannot tell them apart, so that either may answer either
 * note. The later to arrive is taken for one of the earlier's pad and its run of velocities, or live and replay might judge
 * its level by different ones. Looked for among so many strokes before it, which bounds a flood. Chosen, not measured:
 * more than a browser that stood still for ten seconds delivers at once.
 */
export const TWIN_REACH = 4096;

export { default as Lane } from '../../lane/Lane.svelte';
export { default as LaneTable } from '../../lane/LaneTable.svelte';
export { default as AfterTheTake } from './AfterTheTake.svelte';
export { default as CautionLine } from './CautionLine.svelte';
export { default as LayerPads } from './LayerPads.svelte';
export { default as RigLine } from './RigLine.svelte';
export { default as Settings } from './Settings.svelte';

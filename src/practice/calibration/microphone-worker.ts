import { analyseRecording, type MicrophoneEvidence } from './microphone-analysis';

onmessage = ({ data }: MessageEvent<MicrophoneEvidence>) => postMessage(analyseRecording(data));

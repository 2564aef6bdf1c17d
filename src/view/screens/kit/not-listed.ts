/** What may be the matter where a kit does not appear among the MIDI devices. */
export const NOT_LISTED = [
  'Check the cable, and that the module is set to send MIDI over USB.',
  'Windows: a device plugged in while the browser runs may stay unseen; restart the MIDI service or the browser.',
  'Linux: a browser installed as Flatpak or Snap may not see devices; allow it access to them or install it otherwise.',
  'Wireless MIDI has to be paired with the computer first, and its times jitter by several milliseconds.',
] as const;

export {};

/** What of Verovio only tests ask for. */
declare module 'verovio/esm' {
  interface VerovioToolkit {
    renderToTimemap(options: object): unknown;
    getMEI(options: object): string;
  }
}

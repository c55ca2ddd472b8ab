/* What the core's worker uses of the vendored runtime. */

export interface MicroPython {
  FS: {
    analyzePath(path: string): { exists: boolean };
    mkdir(path: string): void;
    writeFile(path: string, text: string): void;
  };
  globals: { get(name: string): any };
  runPython(source: string): void;
}

export function loadMicroPython(options: { heapsize: number }): Promise<MicroPython>;

export function loadPyodide(options: object): Promise<any>;

export default function createModule(settings: object): Promise<any>;

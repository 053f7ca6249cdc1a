// For the checker alone: what its library for pages leaves out, as the service worker sees it.
interface Window {
  htmx?: { process(element: Element): void };
}

interface Waiting extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface Asking extends Waiting {
  readonly clientId: string;
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

interface Told extends Waiting {
  readonly data: { takeOver?: true; claim?: true };
}

interface OpenPage {
  readonly id: string;
  postMessage(message: object, transfer: Transferable[]): void;
}

interface ServiceWorkerItself {
  readonly EVENSTAND: { version: string; assets: { address: string; sha256: string }[] };
  readonly registration: ServiceWorkerRegistration;
  readonly clients: {
    claim(): Promise<void>;
    get(id: string): Promise<OpenPage | undefined>;
    matchAll(options: object): Promise<readonly OpenPage[]>;
  };
  sentence(name: string): string;
  skipWaiting(): Promise<void>;
  addEventListener(name: "install" | "activate", hear: (event: Waiting) => void): void;
  addEventListener(name: "message", hear: (event: Told) => void): void;
  addEventListener(name: "fetch", hear: (event: Asking) => void): void;
}

declare function importScripts(...addresses: string[]): void;

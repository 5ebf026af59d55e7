// Two tabs of one phone share the log; each tells the other which builds it changed.
export class Tabs {
  private readonly channel: BroadcastChannel | null;

  constructor(changed: (builds: string[]) => void) {
    this.channel = typeof BroadcastChannel === "function" ? new BroadcastChannel("halfthou") : null;
    if (this.channel) this.channel.onmessage = (event: MessageEvent<string[]>) => changed(event.data);
    (this.channel as { unref?: () => void } | null)?.unref?.();
  }

  tell(builds: string[]): void {
    if (builds.length > 0) this.channel?.postMessage(builds);
  }
}

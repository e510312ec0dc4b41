// The program behind the screen: on this machine's own server, or inside this very file.

class Stopped extends Error {}
class Broken extends Error {}
class Failed extends Error {} // one call went wrong; the next may go well

// Calls answered by the local server, a line of JSON at a time
class NativeEngine {
  constructor() {
    this.ready = Promise.resolve();
    this.life = 1;
  }

  async call(method, args, progress = () => {}) {
    const response = await fetch("call", { method: "POST", body: JSON.stringify({ method, args }) }).catch(() => ({ ok: false }));
    if (!response.ok) throw new Broken(method);
    const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
    let held = "";
    for (;;) {
      const { value, done } = await reader.read();
      if (done) throw new Broken(method);
      held += value;
      const lines = held.split("\n");
      held = lines.pop();
      for (const line of lines) {
        const told = JSON.parse(line);
        if (told.stopped) throw new Stopped();
        if (told.broken) throw new Failed(method);
        if (told.answer) return { ...told.answer, bytes: bytesOf(told.file) };
        progress(told.done, told.total);
      }
    }
  }

  restart() {} // the server goes on by itself

  stop() {
    return fetch("call", { method: "POST", body: JSON.stringify({ method: "stop", args: [] }) });
  }
}

function bytesOf(base64) {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}

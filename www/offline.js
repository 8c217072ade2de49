// Makes the page work without a network, and offers a new version when there is one. Part of the page, not of the element: whoever
// embeds <stand-in> elsewhere has a service worker of their own, or none.

const element = /** @type {import("./stand-in.js").StandIn | null} */ (document.querySelector("stand-in"));

if (element && "serviceWorker" in navigator) {
  await customElements.whenDefined("stand-in");
  const had = navigator.serviceWorker.controller !== null;
  try {
    const registration = await navigator.serviceWorker.register("sw.js", { updateViaCache: "none" });
    /** @param {ServiceWorker} worker */
    const offer = (worker) => {
      element.offerUpdate(() => {
        navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
        worker.postMessage("take over");
      });
    };
    /** @param {ServiceWorker} worker */
    const watch = (worker) => {
      worker.addEventListener("statechange", () => {
        if (worker.state === "installed" && navigator.serviceWorker.controller) offer(worker);
        if (worker.state === "activated" && !had) element.keepsWorking();
      });
    };
    if (registration.waiting) offer(registration.waiting);
    if (registration.installing) watch(registration.installing);
    registration.addEventListener("updatefound", () => {
      if (registration.installing) watch(registration.installing);
    });
  } catch (reason) {
    // Private windows and plain http addresses refuse; the page works all the same, as long as there is a network.
    console.info("not kept for use without a network:", reason);
  }
}

export {};

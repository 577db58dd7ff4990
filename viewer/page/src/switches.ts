// Groups of radio buttons, check boxes and buttons.

export function addRadios(fieldset: HTMLElement | null, name: string, choices: [string, string][], chosen: (key: string) => void): void {
  choices.forEach(([key, words], place) => {
    const input = addInput(fieldset, "radio", name, words);
    input.value = key;
    input.checked = place === 0;
    input.addEventListener("change", () => chosen(key));
  });
}

export function addCheck(fieldset: HTMLElement | null, words: string, changed: (on: boolean) => void): void {
  const input = addInput(fieldset, "checkbox", words, words);
  input.checked = true;
  input.addEventListener("change", () => changed(input.checked));
}

export function addButton(fieldset: HTMLElement | null, words: string, pressed: () => void): void {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = words;
  button.addEventListener("click", pressed);
  fieldset?.append(button);
}

function addInput(fieldset: HTMLElement | null, type: string, name: string, words: string): HTMLInputElement {
  const label = document.createElement("label");
  const input = document.createElement("input");
  input.type = type;
  input.name = name;
  label.append(input, words);
  fieldset?.append(label);
  return input;
}

// What is closed on the screen is open on paper, and closed again after it.
function openOnPaper(): void {
  let opened: HTMLDetailsElement[] = [];
  addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll<HTMLDetailsElement>("details:not([open])")];
    for (const part of opened) part.open = true;
  });
  addEventListener("afterprint", () => {
    for (const part of opened) part.open = false;
    opened = [];
  });
}

export function watchPage(setUnits: (units: string) => void): void {
  const root = document.documentElement;
  for (const input of document.querySelectorAll<HTMLInputElement>('input[name="units"]')) {
    input.addEventListener("change", () => {
      root.dataset.units = input.value;
      setUnits(input.value);
    });
  }
  for (const input of document.querySelectorAll<HTMLInputElement>('input[name="theme"]')) {
    input.addEventListener("change", () => {
      if (input.value === "auto") delete root.dataset.theme;
      else root.dataset.theme = input.value;
    });
  }
  openOnPaper();
  const text = document.getElementById("design-text");
  document.getElementById("copy-design")?.addEventListener("click", async () => {
    const status = document.getElementById("copied")!;
    try {
      await navigator.clipboard.writeText(text!.textContent!);
      status.textContent = "Copied.";
    } catch {
      text!.closest("details")!.open = true;
      getSelection()!.selectAllChildren(text!);
      status.textContent = "The text is selected: copy it with the keyboard or the menu.";
    }
  });
}

"use strict";
// What the server cannot do by itself: hear of a run while it plays, stop it, save, print, end.

const byId = (id) => document.getElementById(id);
const root = document.body.dataset.root;

/** Sends a form's fields, or nothing, and gives the text of the answer; throws with what was said where it was refused. */
async function send(address, fields) {
  const answer = await fetch(address, { method: "POST", body: fields && new URLSearchParams(fields) });
  const text = await answer.text();
  if (!answer.ok) throw new Error(text);
  return text;
}

function said(text) {
  byId("trouble").textContent = text;
}

/** A question's run, from the moment its page is shown: the connection is the run, and ends with the tab. */
function follow(number) {
  const events = new EventSource(`${root}q/${number}/run`);
  const on = (name, act) => events.addEventListener(name, (event) => act(JSON.parse(event.data)));
  let over = false;
  const end = () => {
    over = true;
    events.close();
    byId("stop").hidden = true;
  };
  on("standing", (now) => {
    byId("progress").max = now.most;
    byId("progress").value = now.played;
    byId("words").textContent = now.words;
    byId("left").textContent = now.left && `(${now.left})`;
    byId("standing").innerHTML = now.html;
  });
  on("writing", (now) => {
    byId("stop").hidden = true;
    byId("words").textContent = "Played. The report, the sheet and what the zone could answer are being made:";
    byId("left").textContent = now.left && `(${now.left})`;
    if (now.html) byId("standing").innerHTML = now.html;
  });
  on("done", (now) => {
    end();
    byId("run").hidden = true;
    byId("standing").replaceChildren();
    byId("result").hidden = false;
    byId("answer").innerHTML = now.html;
    useAnswer();
    byId("result-head").focus();
  });
  on("failed", (now) => {
    end();
    said(now.told);
  });
  events.addEventListener("error", () => {
    if (over) return;
    end();
    said("The run was ended: zoneprobe has ended, or another tab has begun it anew. Load this page again to play it here.");
  });
  byId("stop").addEventListener("click", () => {
    byId("stop").disabled = true;
    send(`${root}q/${number}/stop`).catch((error) => said(error.message));
  });
}

/** Prints a page of the result without leaving this one. */
function print(address) {
  const frame = document.createElement("iframe");
  frame.className = "ear";
  frame.title = "The sheet, to be printed";
  frame.addEventListener("load", () => {
    frame.contentWindow.addEventListener("afterprint", () => frame.remove());
    frame.contentWindow.print();
  });
  frame.src = address;
  document.body.append(frame);
}

/** The buttons of an answer. */
function useAnswer() {
  byId("print")?.addEventListener("click", (event) => print(event.currentTarget.dataset.sheet));
  byId("save")?.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      byId("saved").innerHTML = await send(event.target.action, new FormData(event.target));
    } catch (error) {
      byId("saved").textContent = error.message;
    }
  });
}

const question = byId("question");
if (question) {
  if (byId("result").hidden) follow(question.dataset.number);
  useAnswer();
}
byId("refused")?.focus();
byId("end")?.addEventListener("click", async () => {
  byId("ended").textContent = await send(`${root}end`).catch((error) => error.message);
  byId("end").disabled = true;
});

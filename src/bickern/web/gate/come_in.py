"""The page that asks for the passphrase: plain HTML, no script, nothing loaded."""

import hashlib
from base64 import b64encode
from html import escape

STYLE = """
:root { color-scheme: light dark; --paper: #f6f2ea; --ink: #1c1917; --soft: #57504a; --line: #8a8178; --mark: #8a3b12; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #17140f; --ink: #f3ece0; --soft: #c3b8a8; --line: #8d8375; --mark: #f0a36a; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.2rem/1.5 "Source Sans Pro", sans-serif; }
main { max-width: 30rem; margin: 0 auto; padding: 12vh 1.25rem 2rem; }
h1 { margin: 0 0 1rem; font-size: 1.7rem; line-height: 1.2; border-bottom: 3px solid; padding-bottom: .5rem; }
label { display: block; font-weight: 600; margin-top: 1.5rem; }
input, button { width: 100%; min-height: 3.25rem; font: inherit; color: inherit; border-radius: 2px; }
input { margin: .4rem 0 1rem; padding: .5rem .75rem; background: transparent; border: 2px solid var(--line); }
button { background: var(--ink); color: var(--paper); border: 2px solid var(--ink); font-weight: 600; cursor: pointer; }
:focus-visible { outline: 3px solid var(--mark); outline-offset: 3px; }
.no { border-left: 6px double var(--mark); padding: .25rem 0 .25rem .75rem; font-weight: 600; }
p.soft { color: var(--soft); }
"""
"""Ink on paper, as the pages behind it."""
ALLOWED = f"'sha256-{b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()}'"
"""The one style sheet that a browser may use here, by its sum."""
POLICY = f"default-src 'none'; style-src {ALLOWED}; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
"""No script, no picture, no other place to send the form to."""


def page(to: str, wrong: str = "") -> str:
    """The page; `to`: where to go afterwards, `wrong`: what was not right with the last try."""
    no = f'<p class="no" id="no" role="alert">{escape(wrong)}</p>' if wrong else ""
    told = ' aria-describedby="no" aria-invalid="true"' if wrong else ""
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Come in · bickern</title>
<style>{STYLE}</style>
</head>
<body>
<main>
<h1>Come in to bickern</h1>
<p>Who started it has the passphrase; one that was made up stands in the terminal there.</p>
{no}
<form method="post" action="/come-in">
<input type="hidden" name="to" value="{escape(to)}">
<label for="passphrase">Passphrase</label>
<input id="passphrase" name="passphrase" type="password" maxlength="200" required autofocus
 autocomplete="current-password" autocapitalize="none" spellcheck="false"{told}>
<button type="submit">Come in</button>
</form>
<p class="soft">Capitals and hyphens do not matter. What is sent here can be read along by others on the same net.</p>
</main>
</body>
</html>
"""

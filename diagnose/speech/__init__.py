"""Every sentence that a person reads, made from values: the same on the screen, in JSON and on the handbook's pages.

What the sentences are stands in ``sentences.json``; ``saying.py`` fills them in, and the page's ``say.js`` does the
same in the browser. What is to be told, and of what, is decided on the floors below.
"""

"""What binds a page to the records: fields that are rows of them, the one callback that keeps an edit, undo and redo.

A page shows what the records say of the athlete in its address. An edit goes to the records at once; when it is kept
there the page's version rises, and whatever is drawn from the records is drawn again. Nothing else carries state.
"""

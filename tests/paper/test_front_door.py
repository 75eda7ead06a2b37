"""What the paper layer hands out."""

import kitwright.paper


def test_the_front_door_lists_its_names_once_in_order_and_documents_each() -> None:
    names = kitwright.paper.__all__
    constants = [name for name in names if name.isupper()]
    classes = [name for name in names if name[0].isupper() and not name.isupper()]
    functions = [name for name in names if name.islower()]
    assert names == sorted(constants) + sorted(classes) + sorted(functions)
    assert len(set(names)) == len(names)
    for name in classes + functions:
        assert getattr(kitwright.paper, name).__doc__, name

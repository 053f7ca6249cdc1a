"""Causes in words: names in them stay apart from what can be translated."""

import pytest

from evenstand.engine.quantities.causes import cause


@pytest.mark.parametrize(
    ("tag", "template", "values"),
    [
        ("slip", "slip", {}),
        ("rate of grain", "rate of {name}", {"name": "grain"}),
        ("C:N of Oats", "C:N of {name}", {"name": "Oats"}),
        ("rate spread", "rate spread", {}),
    ],
)
def test_a_name_in_a_tag_is_a_value(tag, template, values):
    assert cause(tag).template == template
    assert dict(cause(tag).values) == values
    assert str(cause(tag)) == tag


def test_an_owner_stands_before_its_cause():
    said = cause("Oats, Cereal rye: purity")
    assert str(said) == "Oats, Cereal rye: purity"
    assert said.values["owner"] == "Oats, Cereal rye"
    assert said.values["cause"].template == "purity"

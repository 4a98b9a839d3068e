using FuelHistory.Client.Forms;
using Terminal.Gui.Input;

namespace FuelHistory.Client.Screens;

/// <summary>A form that is not loaded yet, with what was typed so far. Field: the one that is being typed into. Later: how many keys can only be
/// shown once its lists are there.</summary>
internal sealed record Preview(Form Form, int Field, int Later)
{
    public static Preview Of(Form form, IReadOnlyCollection<Key> keys)
    {
        var (field, taken) = (0, 0);
        foreach (var key in keys)
        {
            var current = form.Fields[field];
            // Enter on a list opens it, and that is not there yet
            if (key == Key.Enter && current is PickField) break;
            if (Step(key) is var step and not 0) field = (field + step + form.Fields.Count) % form.Fields.Count;
            else if (current is TypedField typed && Typed(key, typed.Text) is { } text) typed.Text = text;
            else break;
            taken++;
        }
        return new(form, field, keys.Count - taken);
    }

    private static int Step(Key key) =>
        key == Key.Tab || key == Key.Enter || key == Key.CursorDown ? 1 : key == Key.Tab.WithShift || key == Key.CursorUp ? -1 : 0;

    private static string? Typed(Key key, string text)
    {
        if (key == Key.Backspace) return text.Length > 0 ? text[..^1] : text;
        return !key.IsCtrl && !key.IsAlt && key.AsRune.Value >= ' ' ? text + key.AsRune : null;
    }
}

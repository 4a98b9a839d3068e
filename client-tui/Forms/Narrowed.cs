using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>A list and what is typed to narrow it. The best fits stand first, those that fit equally well in the order of the list;
/// worked out once for each text, not for each look.</summary>
/// <param name="about">More that is said of each, such as the question behind it.</param>
internal sealed class Narrowed<T>(Func<T, NamedThing> name, Func<T, string>? about = null)
{
    private IReadOnlyList<T> _all = [];
    private string _text = "";
    private IReadOnlyList<T>? _fitting;

    public IReadOnlyList<T> All
    {
        get => _all;
        set => (_all, _fitting) = (value, null);
    }

    /// <summary>As it was typed, blanks included.</summary>
    public string Text
    {
        get => _text;
        set => (_text, _fitting) = (value, null);
    }

    public bool Narrows => !string.IsNullOrWhiteSpace(_text);

    public IReadOnlyList<T> Fitting => _fitting ??= Narrows ? Ranked() : _all;

    private List<T> Ranked()
    {
        var typed = _text.Trim();
        return [.. _all.Select(each => (each, fit: Names.Fit(name(each), typed, about?.Invoke(each) ?? ""))).Where(each => each.fit is not null).OrderBy(each => each.fit).Select(each => each.each)];
    }
}

using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>A list that is narrowed by typing, from the first moment or after a key. The mark travels while text is typed.</summary>
internal abstract class NarrowedScreen<T>(Desk desk, Func<T, NamedThing> name, Func<T, string>? about = null) : Screen(desk)
{
    private const int TypedCells = 40;

    protected Narrowed<T> Narrowed { get; } = new(name, about);

    protected IReadOnlyList<T> Fitting => Narrowed.Fitting;

    public override int Rows => Fitting.Count;

    public override Typing? Typing => new(0, PickLines.FilterColumn, TypedCells, Narrowed.Text, Narrow);

    public override bool Travels => true;

    protected void Narrow(string text)
    {
        Narrowed.Text = text;
        Row = 0;
    }
}

/// <summary>The same with letters as keys, until a key opens the line in which text is typed.</summary>
internal abstract class FilteredScreen<T>(Desk desk, Func<T, NamedThing> name) : NarrowedScreen<T>(desk, name)
{
    protected bool Filtering { get; set; }

    public override Typing? Typing => Filtering ? base.Typing : null;

    protected IReadOnlyList<Bound> FilterKeys() => [new(Client.Keys.FilterDone, () => Filtering = false), new(Client.Keys.ShowAll, ShowAll)];

    protected IEnumerable<Line> FilterLine() => Filtering ? [PickLines.Filter]
        : Narrowed.Narrows ? [Line.Of($"  Only those with \"{Clean.Of(Narrowed.Text.Trim(), Signs)}\"; {Client.Keys.ShowAll.Shown} shows all.", Role.Faint)] : [];

    protected Bound StartFilter(Func<string?> whyNot) => new(Client.Keys.Filter, () => Filtering = true, whyNot);

    protected Bound EndFilter() => new(Client.Keys.ShowAll, ShowAll, () => Narrowed.Narrows ? null : "all lines are shown");

    private void ShowAll()
    {
        Filtering = false;
        Narrow("");
    }
}

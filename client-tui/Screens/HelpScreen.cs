using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;

namespace FuelHistory.Client.Screens;

internal sealed class HelpScreen : Screen
{
    private readonly Screen _of;
    private readonly IReadOnlyList<Bound> _table;

    public HelpScreen(Desk desk, Screen of) : base(desk)
    {
        _of = of;
        _table = [.. of.Keys, .. Shell.Everywhere(desk)];
    }

    public override string Title => $"Keys of: {_of.Title}";

    public override IReadOnlyList<Bound> Keys => [];

    public override IReadOnlyList<Line> Lines(int width, int height) => HelpLines.Of(_table, _of.Travels, width, Signs);
}

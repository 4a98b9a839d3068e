using FuelHistory.Client.Words;

namespace FuelHistory.Client.Screens;

/// <summary>Text to read, longer than its line elsewhere.</summary>
internal sealed class TextScreen(Desk desk, string title, Func<int, Signs, IReadOnlyList<Line>> lines) : Screen(desk)
{
    public override string Title => title;

    public override IReadOnlyList<Bound> Keys => [];

    public override IReadOnlyList<Line> Lines(int width, int height) => lines(width, Signs);
}

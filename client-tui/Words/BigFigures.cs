namespace FuelHistory.Client.Words;

/// <summary>Figures large enough to be read from beside the car: five rows, each point two cells wide.</summary>
internal static class BigFigures
{
    public const int Rows = 5;

    // rows of three points from the top
    private static readonly Dictionary<char, string[]> Shapes = new()
    {
        ['0'] = ["###", "# #", "# #", "# #", "###"],
        ['1'] = [" # ", "## ", " # ", " # ", "###"],
        ['2'] = ["###", "  #", "###", "#  ", "###"],
        ['3'] = ["###", "  #", "###", "  #", "###"],
        ['4'] = ["# #", "# #", "###", "  #", "  #"],
        ['5'] = ["###", "#  ", "###", "  #", "###"],
        ['6'] = ["###", "#  ", "###", "# #", "###"],
        ['7'] = ["###", "  #", "  #", "  #", "  #"],
        ['8'] = ["###", "# #", "###", "# #", "###"],
        ['9'] = ["###", "# #", "###", "  #", "###"],
        ['.'] = [" ", " ", " ", " ", "#"],
        ['-'] = ["   ", "   ", "###", "   ", "   "],
    };

    /// <summary>Five rows of equal width; what has no large shape is left out.</summary>
    public static IReadOnlyList<string> Of(string figures, Signs signs)
    {
        var shapes = figures.Replace(',', '.').Where(Shapes.ContainsKey).Select(figure => Shapes[figure]).ToList();
        return [.. Enumerable.Range(0, Rows).Select(row => string.Join("  ", shapes.Select(shape => string.Concat(shape[row].Select(point => point is '#' ? signs.Full + signs.Full : "  ")))))];
    }
}

using System.Globalization;
using System.Text;
using Terminal.Gui.Text;

namespace FuelHistory.Client.Words;

/// <summary>Text measured in terminal cells, where a wide character takes two.</summary>
internal static class Cells
{
    public static int Width(string text) => text.GetColumns();

    /// <summary>At most <paramref name="width"/> cells; what is left out is shown by the cut sign.</summary>
    public static string Cut(string text, int width, Signs signs)
    {
        if (width <= 0) return "";
        if (Width(text) <= width) return text;
        StringBuilder kept = new();
        var used = 0;
        var all = StringInfo.GetTextElementEnumerator(text);
        while (all.MoveNext())
        {
            var element = all.GetTextElement();
            var cells = Width(element);
            if (used + cells > width - 1) break;
            kept.Append(element);
            used += cells;
        }
        return kept.ToString().TrimEnd() + signs.Cut;
    }

    /// <summary>Exactly <paramref name="width"/> cells: cut or filled up with blanks.</summary>
    public static string Fit(string text, int width, Signs signs, bool right = false)
    {
        var cut = Cut(text, width, signs);
        var blanks = new string(' ', Math.Max(0, width - Width(cut)));
        return right ? blanks + cut : cut + blanks;
    }

    /// <summary>Broken at blanks to lines of at most <paramref name="width"/> cells; a longer word is broken where it must.</summary>
    public static IReadOnlyList<string> Wrap(string text, int width)
    {
        List<string> lines = [];
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(word => Pieces(word, Math.Max(1, width))))
        {
            var longer = line.Length == 0 ? word : line + " " + word;
            if (Width(longer) <= width || line.Length == 0) { line = longer; continue; }
            lines.Add(line);
            line = word;
        }
        lines.Add(line);
        return lines;
    }

    private static IEnumerable<string> Pieces(string word, int width)
    {
        var piece = new StringBuilder();
        var used = 0;
        var all = StringInfo.GetTextElementEnumerator(word);
        while (all.MoveNext())
        {
            var element = all.GetTextElement();
            var cells = Width(element);
            if (used + cells > width && piece.Length > 0)
            {
                yield return piece.ToString();
                piece.Clear();
                used = 0;
            }
            piece.Append(element);
            used += cells;
        }
        yield return piece.ToString();
    }
}

using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Finds a thing by its id, its title, or the beginning of either, as long as only one fits.</summary>
internal static class Names
{
    private const int MostNamed = 6;

    public static (NamedThing? Found, string? Wrong) One(IReadOnlyList<NamedThing> among, string text)
    {
        var wanted = text.Trim();
        var exact = among.Where(thing => Same(thing.Id, wanted) || Same(thing.Title, wanted)).ToList();
        var fitting = exact.Count > 0 ? exact : [.. among.Where(thing => Begins(thing.Id, wanted) || Begins(thing.Title, wanted))];
        if (fitting.Count == 0) fitting = [.. among.Where(thing => thing.Title.Contains(wanted, StringComparison.OrdinalIgnoreCase))];
        return fitting.Count switch
        {
            _ when wanted.Length == 0 => (null, "nothing is named"),
            1 => (fitting[0], null),
            0 => (null, $"\"{wanted}\" is not known; there are: {List(among)}"),
            _ => (null, $"\"{wanted}\" fits several: {List(fitting)}"),
        };
    }

    /// <summary>How well a thing fits what was typed, null where it does not: the title or the id itself; the beginning of the title; each word begins
    /// a word of the title; each word stands anywhere in title or id; or there or in what is said about it.</summary>
    public static int? Fit(NamedThing thing, string typed, string about = "")
    {
        if (Same(thing.Title, typed) || Same(thing.Id, typed)) return 0;
        if (Begins(thing.Title, typed)) return 1;
        var words = typed.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.All(word => BeginsAWord(thing.Title, word))) return 2;
        if (words.All(word => Has(thing.Title, word) || Has(thing.Id, word))) return 3;
        return words.All(word => Has(thing.Title, word) || BeginsAWord(about, word)) ? 4 : null;
    }

    private static bool BeginsAWord(string title, string word)
    {
        for (var at = title.IndexOf(word, StringComparison.OrdinalIgnoreCase); at >= 0; at = title.IndexOf(word, at + 1, StringComparison.OrdinalIgnoreCase))
            if (at == 0 || !char.IsLetterOrDigit(title[at - 1])) return true;
        return false;
    }

    private static bool Has(string text, string word) => text.Contains(word, StringComparison.OrdinalIgnoreCase);

    private static string List(IReadOnlyList<NamedThing> things) =>
        string.Join(", ", things.Take(MostNamed).Select(thing => thing.Id == thing.Title ? thing.Id : $"{thing.Id} ({thing.Title})")) + (things.Count > MostNamed ? ", ..." : "");

    private static bool Same(string a, string b) => a.Equals(b, StringComparison.OrdinalIgnoreCase);

    private static bool Begins(string a, string b) => a.StartsWith(b, StringComparison.OrdinalIgnoreCase);
}

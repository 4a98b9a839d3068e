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

    /// <summary>Every word that was typed occurs in the title or the id.</summary>
    public static bool Fits(NamedThing thing, string typed) => typed.Split(' ').All(word =>
        thing.Title.Contains(word, StringComparison.OrdinalIgnoreCase) || thing.Id.Contains(word, StringComparison.OrdinalIgnoreCase));

    private static string List(IReadOnlyList<NamedThing> things) =>
        string.Join(", ", things.Take(MostNamed).Select(thing => thing.Id == thing.Title ? thing.Id : $"{thing.Id} ({thing.Title})")) + (things.Count > MostNamed ? ", ..." : "");

    private static bool Same(string a, string b) => a.Equals(b, StringComparison.OrdinalIgnoreCase);

    private static bool Begins(string a, string b) => a.StartsWith(b, StringComparison.OrdinalIgnoreCase);
}

using System.Globalization;

namespace FuelHistory.Host.Validation;

/// <summary>Words of a message: the field behind a pointer, numbers, and the known names nearest to one that is not.</summary>
public static class Names
{
    /// <summary>"/points/2/minutes" reads as "minutes of point 3".</summary>
    public static string Field(string pointer)
    {
        var parts = pointer.Split('/', StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 0)
        {
            return "The body";
        }

        if (int.TryParse(parts[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var last) && parts.Length > 1)
        {
            return $"{One(parts[^2])} {last + 1}";
        }

        return parts.Length > 2 && int.TryParse(parts[^2], NumberStyles.None, CultureInfo.InvariantCulture, out var place)
            ? $"{parts[^1]} of {One(parts[^3])} {place + 1}"
            : parts.Length > 1 ? $"{parts[^1]} of {parts[^2]}" : parts[0];
    }

    public static string Number(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>At most three known names within a few slips of the given one, or that hold it or one of its words.</summary>
    public static IReadOnlyList<string> Near(string name, IEnumerable<string> known)
    {
        var wanted = name.Trim().ToLowerInvariant().Replace(' ', '-').Replace('_', '-');
        if (wanted.Length is 0 or > 60)
        {
            return [];
        }

        return [.. known
            .Select(k => (Name: k, Far: Distance(wanted, k)))
            .Where(k => k.Far <= Math.Max(2, wanted.Length / 3) || (wanted.Length >= 4 && (k.Name.Contains(wanted, StringComparison.Ordinal) || Shares(wanted, k.Name))))
            .OrderBy(k => k.Far).ThenBy(k => k.Name, StringComparer.Ordinal)
            .Take(3).Select(k => k.Name)];
    }

    private static string One(string list) => list.TrimEnd('s');

    private static bool Shares(string wanted, string known) =>
        wanted.Split('-').Where(w => w.Length >= 4).Intersect(known.Split('-')).Any();

    // Levenshtein: insertions, deletions and changes, one row at a time
    private static int Distance(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var corner = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
                corner = row[j];
                row[j] = Math.Min(change, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[b.Length];
    }
}

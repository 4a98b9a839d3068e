using FuelHistory.Contracts;

namespace FuelHistory.Host.Validation;

/// <summary>Everything that is wrong with one input, gathered before anything is answered.</summary>
public sealed class Faults
{
    private readonly List<Fault> found = [];

    public IReadOnlyList<Fault> Found => found;

    public bool None => found.Count == 0;

    public void Add(string pointer, string code, string detail) => found.Add(new Fault(pointer, code, detail));

    /// <summary>Those of one part of the input, whose pointers begin at that part.</summary>
    public void Under(string pointer, Faults part) => found.AddRange(part.found.Select(f => f with { Pointer = pointer + f.Pointer }));

    public void Required(string pointer, string detail) => Add(pointer, Problems.Required, detail);

    /// <summary>A text that must say something, within a length.</summary>
    public void Text(string pointer, string? value, int longest, bool required = false)
    {
        if (required && string.IsNullOrWhiteSpace(value))
        {
            Required(pointer, $"{Names.Field(pointer)} is empty; write something.");
        }
        else if (value?.Length > longest)
        {
            Add(pointer, Problems.OutOfRange, $"{Names.Field(pointer)} has {value.Length} characters; at most {longest} are kept. Shorten it.");
        }
    }

    public void OneOf(string pointer, string value, params ReadOnlySpan<string> allowed)
    {
        if (!allowed.Contains(value))
        {
            Add(pointer, Problems.Unknown, $"{Names.Field(pointer)} \"{value}\" is not known; it is one of {string.Join(", ", allowed.ToArray())}.");
        }
    }

    /// <returns>Whether the id is among the known ones; if not, the fault names the nearest.</returns>
    public bool Known(string pointer, string kind, string id, IEnumerable<string> known)
    {
        var all = known as IReadOnlyCollection<string> ?? [.. known];
        if (all.Contains(id))
        {
            return true;
        }

        var near = Names.Near(id, all);
        Add(pointer, Problems.Unknown, near.Count > 0
            ? $"There is no {kind} \"{id}\". Did you mean {string.Join(" or ", near)}?"
            : $"There is no {kind} \"{id}\". Known: {string.Join(", ", all.Order(StringComparer.Ordinal).Take(12))}{(all.Count > 12 ? ", ..." : "")}.");
        return false;
    }

    /// <summary>A number within a range, both ends allowed.</summary>
    public void Within(string pointer, double? value, double low, double high, string unit = "")
    {
        if (value is { } v && !(v >= low && v <= high))
        {
            Add(pointer, Problems.OutOfRange, $"{Names.Field(pointer)} is {Names.Number(v)}{unit}; expected {Names.Number(low)} to {Names.Number(high)}{unit}.");
        }
    }

    /// <summary>A number above zero, up to a limit.</summary>
    public void Above(string pointer, double? value, double high, string unit = "")
    {
        if (value is { } v && !(v > 0 && v <= high))
        {
            Add(pointer, Problems.OutOfRange, $"{Names.Field(pointer)} is {Names.Number(v)}{unit}; expected more than 0 and at most {Names.Number(high)}{unit}.");
        }
    }
}

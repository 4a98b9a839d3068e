using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>One question of several that narrow each other: what it offers hangs on what was picked before. Offers: what there is to pick, from the
/// ids picked in the fields before it, null where one was left open. Nothing to pick: the question does not arise.</summary>
internal sealed record Facet(string Name, string Label, string Hint, Func<IReadOnlyList<string?>, IReadOnlyList<NamedThing>> Offers);

/// <summary>Up to a few lists in a row, such as what happens, when, and then. Each may be left open; what does not go with a new pick is let go,
/// so that the ids always stand for something that is offered.</summary>
internal sealed class Facets
{
    /// <summary>The first choice of every list after the first.</summary>
    public const string Open = "(left open)";

    private readonly IReadOnlyList<Facet> _facets;
    private readonly string?[] _picked;

    public Facets(IReadOnlyList<Facet> facets)
    {
        _facets = facets;
        _picked = new string?[facets.Count];
    }

    public int Count => _facets.Count;

    /// <summary>Null where it was left open.</summary>
    public IReadOnlyList<string?> Picked => _picked;

    /// <summary>What can be picked now, without the choice to leave it open.</summary>
    public IReadOnlyList<NamedThing> Offered(int at) => _facets[at].Offers([.. _picked.Take(at)]);

    /// <summary>Whether the question arises, after what was picked before it.</summary>
    public bool Arises(int at) => at == 0 || Offered(at).Count > 0;

    /// <summary>Picks one, or leaves it open; later ones that do not go with it are let go.</summary>
    public void Pick(int at, string? id)
    {
        _picked[at] = Offered(at).Any(thing => thing.Id == id) ? id : null;
        for (var later = at + 1; later < Count; later++)
            if (_picked[later] is { } kept && Offered(later).All(thing => thing.Id != kept)) _picked[later] = null;
    }

    /// <summary>The list of one question as a field to pick from, with the choice to leave it open.</summary>
    public PickField Field(int at)
    {
        var facet = _facets[at];
        PickField field = new(facet.Name, facet.Label, facet.Hint, [.. at == 0 ? [] : new[] { new NamedThing("", Open) }, .. Offered(at)]);
        if (_picked[at] is { } id) field.Only(id);
        return field;
    }

    /// <summary>In words: "dies; at idle; restarts at once". What was left open is left out.</summary>
    public string Shown => string.Join("; ", Enumerable.Range(0, Count).Where(at => _picked[at] is not null).Select(at => Offered(at).First(thing => thing.Id == _picked[at]).Title));

    /// <summary>The plain command writes them in order, parted by slashes: "dies/idle"; an empty one is left open.</summary>
    /// <returns>Null when it was taken, else what is wrong with it.</returns>
    public string? Take(string text)
    {
        var parts = text.Split('/', StringSplitOptions.TrimEntries);
        if (parts.Length > Count) return $"\"{text}\" names more than there is to say; write at most {Count} parts";
        for (var at = 0; at < Count; at++)
        {
            if (at >= parts.Length || parts[at].Length == 0)
            {
                Pick(at, null);
                continue;
            }
            var (found, wrong) = Names.One(Offered(at), parts[at]);
            if (found is null) return wrong;
            Pick(at, found.Id);
        }
        return null;
    }
}

/// <summary>Facets as one field of a form. Enter opens the lists one after the other; a list with nothing to pick is passed over.</summary>
internal sealed class FacetField(string name, string label, string hint, Facets facets) : Field(name, label, hint)
{
    public Facets Facets { get; } = facets;

    public override string Shown => Facets.Shown;

    public override string State => string.Join('/', Facets.Picked);

    public override string? Take(string text) => Facets.Take(text);
}

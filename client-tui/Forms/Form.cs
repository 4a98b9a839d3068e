using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>What a filled form comes to: faults of reading, or a call to make that answers with what was stored.</summary>
internal sealed record Filled(IReadOnlyList<Fault> Faults, Func<CancellationToken, Task<Answer<Stored>>> Send);

/// <summary>What was stored, in one sentence. Id: the entry's, where there is one.</summary>
internal sealed record Stored(string Sentence, string? Id = null);

/// <summary>What becomes of a filled-in body where it is not simply entered: it is tried, or corrects an entry.</summary>
internal delegate Task<Answer<Stored>> Save<in T>(T body, CancellationToken ct);

/// <summary>Fields and what becomes of them. Fill gets whether an implausible value was confirmed. The same form serves the
/// screen and the plain command.</summary>
internal sealed record Form(string Title, IReadOnlyList<Field> Fields, Func<bool, Filled> Fill)
{
    /// <summary>Puts what is known already into a field, as if it had been written; a form without the field takes no notice.</summary>
    public Form With(string name, string? text)
    {
        if (!string.IsNullOrEmpty(text)) Fields.FirstOrDefault(field => field.Name == name)?.Take(text);
        return this;
    }

    public string State => string.Join('\n', Fields.Select(each => each.State));
}

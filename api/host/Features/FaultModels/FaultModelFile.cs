using System.Security.Cryptography;
using System.Text;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>A usable model with its whole text, shared pieces put in.</summary>
/// <param name="Own">From the user's own folder.</param>
/// <param name="BaseId">The model of ours that it builds on, and whose published limits are its own as well.</param>
public sealed record LoadedModel(CompiledModel Compiled, string Text, bool Own, string? BaseId)
{
    /// <summary>Why two faults are hard to tell apart, by <see cref="ReviewedPairs.Key"/>.</summary>
    public IReadOnlyDictionary<string, string> PairReasons { get; init; } = new Dictionary<string, string>();

    public string Sha256 { get; } = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Text)));
}

/// <summary>One model.json with the pieces that it may include: usable, or the reasons why not, each with file and line.</summary>
internal sealed record FaultModelFile(LoadedModel? Model, string? Id, IReadOnlyList<string> Reasons)
{
    public static FaultModelFile Read(ModelText text, IReadOnlyDictionary<string, ModelText> pieces, bool own = false)
    {
        string? id = null;
        try
        {
            var composed = FaultModelComposer.Compose(text, pieces);
            id = composed.Id;
            var model = composed.Read();
            var refusals = FaultModelLinter.Refusals(model);
            return refusals.Count == 0
                ? new FaultModelFile(new LoadedModel(new CompiledModel(model), composed.Json, own, composed.BaseId), model.Id, [])
                : new FaultModelFile(null, id, [.. refusals.Select(r => $"{composed.PlaceOf(r.Path)}, {r.Path}: {r.Message} ({r.Rule})")]);
        }
        catch (FaultModelException e)
        {
            return new FaultModelFile(null, id, [e.Message]);
        }
    }
}

/// <summary>A vehicle's fault model is not there or was refused at the start; the message says which and why.</summary>
public sealed class FaultModelUnusableException(string message) : Exception(message);

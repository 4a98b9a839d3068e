using System.Security.Cryptography;
using System.Text;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>One model.json with the pieces that it may include, read and linted: usable, or the reasons why not, each with file and line.</summary>
internal sealed record FaultModelFile(KnownModel? Model, string? Id, IReadOnlyList<string> Reasons)
{
    /// <param name="pairReasons">Asked only if the model is usable.</param>
    public static FaultModelFile Read(ModelText text, IReadOnlyDictionary<string, ModelText> pieces, Func<IReadOnlyDictionary<string, string>> pairReasons, bool own = false)
    {
        string? id = null;
        try
        {
            var composed = FaultModelComposer.Compose(text, pieces);
            id = composed.Id;
            var model = composed.Read();
            var refusals = FaultModelLinter.Refusals(model);
            return refusals.Count == 0
                ? new FaultModelFile(Known(text.Name, composed, model, pairReasons(), own), model.Id, [])
                : new FaultModelFile(null, id, [.. refusals.Select(r => $"{composed.PlaceOf(r.Path)}, {r.Path}: {r.Message} ({r.Rule})")]);
        }
        catch (FaultModelException e)
        {
            return new FaultModelFile(null, id, [e.Message]);
        }
    }

    private static KnownModel Known(string file, ComposedModel composed, FaultModel model, IReadOnlyDictionary<string, string> pairReasons, bool own)
    {
        var (text, loaded) = (composed.Json, new LoadedModel(new CompiledModel(model), pairReasons));
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
        return new KnownModel(model.Id, model.Title, model.Revision, sha256, () => PackedText.Pack(text), () => loaded) { File = file, Own = own, BaseId = composed.BaseId };
    }
}

/// <summary>A vehicle's fault model is not there, was refused at the start, or cannot be read; the message says which and why.</summary>
public sealed class FaultModelUnusableException(string message) : Exception(message);
